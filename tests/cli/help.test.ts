import { describe, expect, it } from 'vitest';
import { commands } from '../../src/cli/command-list.ts';
import { whichgas } from './run-program.ts';

const width = 80;

describe('--help', () => {
  it.each(commands.map(({ name }) => name))('%s says how it is used, with one example', (name) => {
    const { code, out, err } = whichgas([name, '--help']);
    expect(code).toBe(0);
    expect(err).toBe('');
    expect(out).toContain(`Usage\n  whichgas ${name}`);
    expect(out.match(/^Example$/gm)).toHaveLength(1);
    expect(out).toContain('--json');
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(width);
  });

  it('of the program lists every command', () => {
    const { code, out } = whichgas(['--help']);
    expect(code).toBe(0);
    for (const { name } of commands) expect(out).toMatch(new RegExp(`^ {2}${name} `, 'm'));
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(width);
  });

  it.each([['--version'], ['identify', '--version'], ['-h'], ['lines', '-h']])(
    '%s %s ends with 0',
    (...args) => {
      expect(whichgas(args.filter((arg) => arg !== undefined)).code).toBe(0);
    },
  );

  it('--version prints the version of the package', async () => {
    const { default: packageJson } = await import('../../package.json', { with: { type: 'json' } });
    expect(whichgas(['--version']).out).toBe(`${packageJson.version}\n`);
  });
});
