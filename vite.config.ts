import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

// The page: built from src/web into dist/web, served by `unfasten serve` under a policy without inline script or style.
export default defineConfig({
  root: fileURLToPath(new URL('src/web', import.meta.url)),
  base: '/',
  plugins: [react()],
  build: {
    outDir: fileURLToPath(new URL('dist/web', import.meta.url)),
    emptyOutDir: true,
    target: ['chrome120', 'firefox121', 'safari17'],
    // Fonts and pictures stay files: the policy allows no data: address for fonts.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
    chunkSizeWarningLimit: 1000,
    rolldownOptions: { checks: { pluginTimings: false } },
  },
  worker: { format: 'es' },
  server: { proxy: { '/api': 'http://127.0.0.1:4747' } },
});
