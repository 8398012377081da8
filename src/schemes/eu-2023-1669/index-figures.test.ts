import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { deviceX, known, open } from '../../../test/index-inputs.ts';
import { evaluateIndex } from './evaluate-index.ts';
import { STEPS_WITHOUT_BOUND } from './index-figures.ts';
import { indexWidth } from './index-width.ts';
import { DEFAULT_INTERPRETATIONS } from './interpretations.ts';

const page = readFileSync(new URL('../../../docs/method/eu-index.md', import.meta.url), 'utf8');

/** The JSON block of the method page with this name. */
const example = (name: string): unknown => {
  const block = new RegExp(`\`\`\`json ${name}\\n([\\s\\S]*?)\\n\`\`\``).exec(page)?.[1];
  return JSON.parse(block ?? 'null');
};

const updates = {
  security: known(7),
  corrective: known(7),
  functionality: open<number>('supply.updates.functionality'),
};

it('gives the plain form that docs/method/eu-index.md shows for device X', () => {
  expect(evaluateIndex(deviceX(), DEFAULT_INTERPRETATIONS).figures).toEqual(example('device-x'));
});

it('gives the plain form that docs/method/eu-index.md shows with one part below the scale and one fact open', () => {
  const input = deviceX({ button: [17, 'resupplied', 'below-scale'] }, { updates });
  expect(evaluateIndex(input, DEFAULT_INTERPRETATIONS).figures).toEqual(example('device-x-below-and-open'));
});

it('has the width that docs/method/eu-index.md tells of, with updates open', () => {
  const { low, high, includesNotScorable, placesNotScorable } = indexWidth(
    deviceX({}, { updates }),
    DEFAULT_INTERPRETATIONS,
  );
  expect([low.R, high.R, includesNotScorable, placesNotScorable]).toEqual(['2.7350', '3.3350', true, ['SSU']]);
  expect(page).toContain('at least 2.7350, or no score at all by SSU');
});

it('shows steps without a bound as no number, and the steps of the deciding instance', () => {
  const { figures } = evaluateIndex(
    deviceX({ battery: [STEPS_WITHOUT_BOUND, 'resupplied', 'basic'] }),
    DEFAULT_INTERPRETATIONS,
  );
  expect(figures.parts.battery).toEqual({ steps: null, DD: 1, F: 3, T: 4 });
});
