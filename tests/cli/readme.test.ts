import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { commands } from '../../src/cli/command-list.ts';
import { shownCommands, withRealOutputs } from './readme-commands.ts';

const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');

describe('README.md', () => {
  it('shows every command at work', () => {
    const shown = shownCommands(readme).join('\n');
    for (const { name } of commands) expect(shown).toMatch(new RegExp(`whichgas ${name}\\b`));
  });

  it('prints what the program prints (otherwise: npx tsx tests/cli/refresh-readme.ts)', async () => {
    expect(await withRealOutputs(readme)).toBe(readme);
  });

  it('gives the commands that the continuous check runs', () => {
    const check = readFileSync(new URL('../../.ci/run', import.meta.url), 'utf8');
    for (const command of ['npm ci && npm start', 'npm ci && npm test']) expect(readme).toContain(command);
    expect(check).toMatch(/^npm ci && npm test$/m);
  });
});
