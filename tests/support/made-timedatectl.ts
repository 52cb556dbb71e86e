import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';

/** A search path on which `timedatectl` is a shell script of these lines. */
export const pathWithTimedatectl = (...lines: readonly string[]): string => {
  const folder = mkdtempSync(join(tmpdir(), 'rillkeeper-timedatectl-'));
  writeFileSync(join(folder, 'timedatectl'), ['#!/bin/sh', ...lines, ''].join('\n'), { mode: 0o755 });
  return `${folder}${delimiter}${process.env['PATH'] ?? ''}`;
};
