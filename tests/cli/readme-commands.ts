/** The ```console blocks of README.md: `$ command` lines, each followed by what it prints. */
import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { programFile, withFiles } from './run-program.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const consoleBlock = /^```console\n([\s\S]*?)^```$/gm;

/** Every command shown in the text. */
export function shownCommands(readme: string): string[] {
  return [...readme.matchAll(consoleBlock)].flatMap(([, block = '']) => commandsOf(block));
}

/** The text with every shown output replaced by what the built program prints now. */
export function withRealOutputs(readme: string): Promise<string> {
  return withFiles({}, (folder) => {
    symlinkSync(join(root, 'data'), join(folder, 'data'));
    mkdirSync(join(folder, 'bin'));
    const shim = join(folder, 'bin', 'whichgas');
    writeFileSync(shim, `#!/bin/sh\nexec "${process.execPath}" "${programFile}" "$@"\n`);
    chmodSync(shim, 0o755);
    return readme.replace(consoleBlock, (_fence, block: string) => {
      const entries = commandsOf(block).map((command) => `$ ${command}\n${outputOf(command, folder)}`);
      return `\`\`\`console\n${entries.join('')}\`\`\``;
    });
  });
}

function commandsOf(block: string): string[] {
  return [...block.matchAll(/^\$ (.+)$/gm)].map(([, command = '']) => command);
}

function outputOf(command: string, folder: string): string {
  const { NO_COLOR: _no, FORCE_COLOR: _force, ...env } = process.env;
  const { stdout } = spawnSync('bash', ['-c', `${command} 2>&1`], {
    cwd: folder,
    env: { ...env, PATH: `${join(folder, 'bin')}:${env.PATH}` },
    encoding: 'utf8',
  });
  return stdout;
}
