import './look/fonts.css';
import './look/tokens.css';
import './look/base.css';
import { RouterProvider } from '@tanstack/react-router';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { keptTheme, putSheet } from './app-shell/theme.ts';
import { sendLeftovers } from './ledger/use-assessment.ts';
import { router } from './router.tsx';

putSheet(keptTheme());
void sendLeftovers();

const page = document.getElementById('page');
if (page)
  createRoot(page).render(
    <StrictMode>
      <RouterProvider router={router} />
    </StrictMode>,
  );
