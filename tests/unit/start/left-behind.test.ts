import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { leftBehind } from '../../../firmware-host/start/left-behind.ts';
import { bookPath } from '../../../firmware-host/storage/journal/book-path.ts';
import { stateFolder } from '../../../firmware-host/storage/state-folder.ts';

const place = (): { readonly RILLKEEPER_STATE: string } => ({
  RILLKEEPER_STATE: mkdtempSync(join(tmpdir(), 'rillkeeper-left-')),
});
const bookIn = (folder: string): void => {
  mkdirSync(folder, { recursive: true });
  writeFileSync(bookPath(folder), '');
};

describe('what hosts knew of a farm under another name', () => {
  it('is told with both folders and how to go on with it, until a book has been begun under the new one', () => {
    const env = place();
    bookIn(stateFolder('Old', env));
    const [old, fresh] = [stateFolder('Old', env), stateFolder('New', env)];
    expect(leftBehind('New', 'Old', env)).toContain(`mv ${fresh} ${fresh}.unused; mv ${old} ${fresh}`);
    bookIn(fresh);
    expect(leftBehind('New', 'Old', env)).toBeNull();
  });

  it('is nothing for a new farm, one that keeps its name, and one whose new name leads to the same folder', () => {
    const env = place();
    expect(leftBehind('New', 'Old', env)).toBeNull();
    bookIn(stateFolder('Old', env));
    expect(leftBehind('New', null, env)).toBeNull();
    expect(leftBehind('Old', 'Old', env)).toBeNull();
    expect(leftBehind('OLD!', 'Old', env)).toBeNull();
  });

  it('is told of a farm in another script that an earlier version kept in the folder "farm"', () => {
    const env = place();
    bookIn(join(env.RILLKEEPER_STATE, 'farm'));
    expect(leftBehind('農場', '農場', env)).toContain(join(env.RILLKEEPER_STATE, 'farm'));
  });
});
