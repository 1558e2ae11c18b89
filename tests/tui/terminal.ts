/** A real terminal for tests: the built program inside tmux, with waiting for content instead of sleeping. */
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The program under test: the built one, or an installed one named in the environment. */
export const PROGRAM =
  process.env.WHICHGAS_PROGRAM ?? fileURLToPath(new URL('../../dist/whichgas.js', import.meta.url));

export const hasTmux = spawnSync('tmux', ['-V']).status === 0;
if (!hasTmux) console.warn('tmux is not installed: the tests in a real terminal are skipped.');

export interface TerminalOptions {
  readonly columns?: number;
  readonly rows?: number;
  readonly folder: string;
  readonly args?: readonly string[];
  readonly env?: Readonly<Record<string, string>>;
  /** The line of the shell that runs the program. */
  readonly line?: (program: string) => string;
}

/** exec: the shell becomes the program, so that the pane's process is the program itself. */
const asItself = (program: string): string => `exec ${program}`;

const GIVE_UP_MS = 20_000;
const LOOK_EVERY_MS = 40;

/** Names of keys go to tmux as they are; text goes literally. */
export type Key = { readonly key: string; readonly times: number };
export const key = (name: string, times = 1): Key => ({ key: name, times });

export class Terminal {
  readonly #socket: string;
  readonly #socketFolder: string;
  readonly #log: string;
  /** The process of the program itself; known also when it has ended. */
  readonly pid: number;

  constructor({ columns = 80, rows = 24, folder, args = [], env = {}, line = asItself }: TerminalOptions) {
    this.#socketFolder = mkdtempSync(join(tmpdir(), 'tmux-'));
    this.#socket = join(this.#socketFolder, 's');
    const settings = Object.entries(env).map(([name, value]) => `${name}=${value}`);
    const program = `env -u CI -u NO_COLOR -u FORCE_COLOR ${settings.map(quoted).join(' ')} ${quoted(process.execPath)} ${quoted(PROGRAM)} ${args.map(quoted).join(' ')}`;
    const command = `cd ${quoted(folder)} && ${line(program)}`;
    this.#tmux(
      '-f',
      '/dev/null',
      'new-session',
      '-d',
      '-s',
      'bench',
      '-x',
      String(columns),
      '-y',
      String(rows),
      'sh',
    );
    this.#tmux('set-option', '-g', 'status', 'off');
    this.#tmux('set-option', '-g', 'remain-on-exit', 'on');
    this.#log = join(this.#socketFolder, 'log');
    this.#tmux('pipe-pane', '-t', 'bench', `cat > ${this.#log}`);
    this.#tmux('respawn-pane', '-k', '-t', 'bench', command);
    this.pid = Number(this.#tmux('display-message', '-p', '-t', 'bench', '#{pane_pid}'));
  }

  type(...parts: readonly (string | Key)[]): void {
    for (const part of parts) {
      if (typeof part === 'string') this.#tmux('send-keys', '-t', 'bench', '-l', part);
      else this.#tmux('send-keys', '-t', 'bench', '-N', String(part.times), part.key);
    }
  }

  /** Pastes as a terminal does, with the marks the program has asked for. */
  paste(text: string): void {
    this.#tmux('set-buffer', text);
    this.#tmux('paste-buffer', '-p', '-r', '-t', 'bench');
  }

  resize(columns: number, rows: number): void {
    this.#tmux('resize-window', '-t', 'bench', '-x', String(columns), '-y', String(rows));
  }

  screen(): string {
    return this.#tmux('capture-pane', '-p', '-t', 'bench');
  }

  /** Everything the program has written to the terminal up to the last thing it writes. */
  async writtenUpTo(last: string): Promise<string> {
    const written = (): string => readFileSync(this.#log, 'utf8');
    // The log is written by another process, which may be behind.
    await until(
      () => written().includes(last),
      () => `${JSON.stringify(last)} is not in what was written: ${JSON.stringify(written())}`,
    );
    return written();
  }

  /** The different colour settings on the screen. */
  colours(): readonly string[] {
    const codes = this.#tmux('capture-pane', '-p', '-e', '-t', 'bench').match(
      /\u001b\[[0-9;]*(?:3[0-8]|9[0-7])[0-9;]*m/g,
    );
    return [...new Set(codes ?? [])];
  }

  /** Waits until the screen holds the content; fails with the screen when it does not come. */
  async waitFor(content: string | RegExp): Promise<string> {
    const isThere = (text: string): boolean =>
      typeof content === 'string' ? text.includes(content) : content.test(text);
    let screen = '';
    await until(
      () => {
        screen = this.screen();
        // A sentence may be broken over two lines of the screen.
        return isThere(screen) || isThere(screen.replace(/\s*\n\s*/g, ' '));
      },
      () => `"${content}" did not come; the screen is\n${screen}`,
    );
    return screen;
  }

  /** Closes the window with the program in it, as a person does; the terminal is gone at once. */
  closeWindow(): void {
    this.#tmux('kill-pane', '-t', 'bench');
  }

  /** Ends the program without a chance to tidy up. */
  async kill(): Promise<void> {
    process.kill(this.pid, 'SIGKILL');
    await this.#told('#{?pane_dead,dead,}', 'the program did not end');
  }

  /** Waits until the program has ended by itself. @returns its exit status */
  async ended(): Promise<string> {
    await this.#told('#{?pane_dead,dead,}', 'the program did not end');
    // The terminal closes a moment before the exit status is known, and tmux 3.3a now and then misses the signal that
    // tells it so: the program stays a zombie until tmux is told once more.
    const server = Number(this.#tmux('display-message', '-p', '#{pid}'));
    return await this.#told('#{pane_dead_status}', 'the program ended without an exit status', () =>
      process.kill(server, 'SIGCHLD'),
    );
  }

  /** Waits until tmux writes anything for the format. */
  async #told(format: string, problem: string, nudge: () => void = () => {}): Promise<string> {
    let value = '';
    await until(
      () => {
        value = this.#tmux('display-message', '-p', '-t', 'bench', format).trim();
        if (value === '') nudge();
        return value !== '';
      },
      () => `${problem}; the screen is\n${this.screen()}`,
    );
    return value;
  }

  /**
   * Closes the terminal, and waits until the program has ended too: told to hang up it still closes its record, and
   * a folder in which it writes cannot be removed.
   */
  async close(): Promise<void> {
    spawnSync('tmux', ['-S', this.#socket, 'kill-server']);
    try {
      await until(
        () => !isRunning(this.pid),
        () => 'the program did not end when its terminal was closed',
      );
    } catch (error) {
      process.kill(this.pid, 'SIGKILL');
      throw error;
    } finally {
      rmSync(this.#socketFolder, { recursive: true, force: true });
    }
  }

  #tmux(...args: readonly string[]): string {
    return execFileSync('tmux', ['-S', this.#socket, ...args], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'pipe'],
    });
  }
}

/** Looks again and again until it is so; fails with the problem when that takes too long. */
export async function until(isSo: () => boolean, problem: () => string): Promise<void> {
  const deadline = Date.now() + GIVE_UP_MS;
  while (!isSo()) {
    if (Date.now() > deadline) throw new Error(problem());
    await new Promise((resolve) => setTimeout(resolve, LOOK_EVERY_MS));
  }
}

/** Whether a process still does anything. One that has ended and that nobody has waited for does not. */
function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
  } catch {
    return false;
  }
  const status = `/proc/${pid}/status`;
  try {
    return !existsSync('/proc/self/status') || !/^State:\s+[ZX]/m.test(readFileSync(status, 'utf8'));
  } catch {
    return false;
  }
}

export function quoted(text: string): string {
  return `'${text.replaceAll("'", "'\\''")}'`;
}
