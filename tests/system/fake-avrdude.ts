import { chmodSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseIntelHex } from '../../firmware-host/firmware-image/intel-hex.ts';
import { ownFolder, written } from './rillkeeper.ts';

/**
 * In place of avrdude: keeps what it was asked and given. Says the version of a bootloader, and fails with the words
 * and from the run on that the test wants.
 */
export interface FakeAvrdude {
  readonly folder: string;
  /** The arguments of each run. */
  readonly runs: () => readonly (readonly string[])[];
  /** The flash that it was last given to write. */
  readonly image: () => Uint8Array;
  readonly says: (bootloaderVersion: string) => void;
  readonly failsWith: (words: string) => void;
}

const SCRIPT = `#!/bin/sh
here="\${0%/*}"
for word in "$@"; do
  printf '%s\\n' "$word" >> "$here/runs"
  case "$word" in
    flash:w:*:i) file="\${word#flash:w:}"; /bin/cp "\${file%:i}" "$here/given.hex" ;;
  esac
done
printf -- '====\\n' >> "$here/runs"
printf '         Firmware Version: %s\\n' "$(/bin/cat "$here/version")" >&2
case "$*" in *flash:w:*) printf 'Writing | #' >&2; printf '################# | 100%% 1.20 s\\n' >&2 ;; esac
if [ -s "$here/failure" ]; then /bin/cat "$here/failure" >&2; exit 1; fi
`;

export const fakeAvrdude = (): FakeAvrdude => {
  const folder = ownFolder();
  chmodSync(written(folder, 'avrdude', SCRIPT), 0o755);
  const keep = (name: string) => (text: string) => {
    writeFileSync(join(folder, name), text);
  };
  keep('version')('4.4');
  return {
    folder,
    runs: () =>
      existsSync(join(folder, 'runs'))
        ? readFileSync(join(folder, 'runs'), 'utf8')
            .split('====\n')
            .slice(0, -1)
            .map((run) => run.trimEnd().split('\n'))
        : [],
    image: () => parseIntelHex(readFileSync(join(folder, 'given.hex'), 'utf8')),
    says: keep('version'),
    failsWith: keep('failure'),
  };
};

/** Commands of this test file find programs only in these folders. */
export const pathOf = (...folders: readonly string[]): void => {
  process.env['PATH'] = folders.join(':');
};
