import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { ownFolder } from './rillkeeper.ts';

/** The words of a host to its service manager, and when each came: `performance.now`. */
export interface NotifySocket {
  readonly path: string;
  readonly words: readonly { readonly word: string; readonly at: number }[];
  readonly close: () => void;
}

/** Perl can hold a socket of datagrams under a path, Node.js not; what it does not ask for with a datagram is closed at once. */
const RECEIVE = `$| = 1; socket(S, AF_UNIX, SOCK_DGRAM, 0) and bind(S, pack_sockaddr_un($ARGV[0])) or die $!;
while (defined recv(S, $words, 65536, 0)) { print "$words\\n" }`;

/**
 * A socket as a service manager holds one (sd_notify(3)): it lets go of the descriptor for which the notifier waits.
 * @throws Error when perl is not installed (apt-get install perl)
 */
export const notifySocket = async (): Promise<NotifySocket> => {
  const path = join(ownFolder(), 'notify');
  const child = spawn('perl', ['-MSocket', '-e', RECEIVE, path], { stdio: ['ignore', 'pipe', 'ignore'] });
  await Promise.race([once(child, 'spawn'), once(child, 'error')]);
  if (child.pid === undefined) throw new Error('perl is not installed: apt-get install perl');
  const words: { readonly word: string; readonly at: number }[] = [];
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    for (const word of text.split('\n')) words.push({ word, at: performance.now() });
  });
  while (!existsSync(path)) await sleep(10);
  return { path, words, close: () => child.kill('SIGKILL') };
};
