import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { runInProcess } from './run-in-process.ts';

const example = (name: string): string => fileURLToPath(new URL(`../../examples/${name}`, import.meta.url));
const tarn5 = example('tarn-5');

describe('unfasten routes', () => {
  it.each(['tarn-5', 'tarn-4', 'beck-11', 'gust-2', 'quick-log'])('%s: a line for each part', async (name) => {
    const { code, out } = await runInProcess(['routes', example(name)]);
    expect(code).toBe(0);
    expect(out.split('\n')[0]).toMatch(/^part +steps +time \[s\] +performed +goes back$/);
    expect(out.split('\n').length).toBeGreaterThan(3);
  });

  it('--part battery: eleven steps in order, each with why it ended', async () => {
    const { code, out } = await runInProcess(['routes', tarn5, '--part', 'battery']);
    expect(code).toBe(0);
    expect(out).toMatch(/^Battery: 11 \(could be 10\) steps, best found, proved/);
    expect(out).toContain('ended: a part came off');
    expect(out).toContain('ended: heating is a step of its own');
  });

  it('--part with a slip of the pen: code 2 and the part that was meant', async () => {
    const { code, err } = await runInProcess(['routes', tarn5, '--part', 'batery']);
    expect(code).toBe(2);
    expect(err).toContain('Did you mean "battery"?');
  });

  it('--tools without the driver: code 1, and which tools would be enough', async () => {
    const { code, out } = await runInProcess([
      'routes',
      tarn5,
      '--part',
      'battery',
      '--tools',
      'spudger,pick',
      '--json',
    ]);
    expect(code).toBe(1);
    const [row] = JSON.parse(out);
    expect(row.steps).toBeNull();
    expect(row.addTools.every((set: readonly string[]) => set.includes('ph000'))).toBe(true);
  });

  it('--tools tells parts, fasteners and tools by their names, whether tools are wanted or something else bars the way', async () => {
    const { out } = await runInProcess(['routes', tarn5, '--tools', 'spudger,pick']);
    const line = (name: string) => out.split('\n').find((one) => one.startsWith(`${name}:`));
    expect(line('Back cover')).toBe(
      'Back cover: not with these tools; enough with Suction cup and Heating mat with controller, or Warming pouch from the kit and Small suction cup from the kit',
    );
    expect(line('Side buttons with flex')).toMatch(
      /not with these tools; battery bracket screws: .*battery bracket screws, by driver/,
    );
    expect(out).not.toMatch(/ph000|heat-mat|battery-bracket/);
  });

  it('--tools for a part that is not there: code 2 and the part that was meant', async () => {
    const { code, err } = await runInProcess(['routes', tarn5, '--part', 'batery', '--tools', 'spudger']);
    expect(code).toBe(2);
    expect(err).toContain('Did you mean "battery"?');
  });

  it('--tools with an unknown tool: code 2', async () => {
    const { code, err } = await runInProcess(['routes', tarn5, '--tools', 'spuger']);
    expect(code).toBe(2);
    expect(err).toContain('Did you mean "spudger"?');
  });
});
