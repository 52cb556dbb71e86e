import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Stands before the system's own calls: each word that must be on the disk for good takes its time. */
const SOURCE = `#define _GNU_SOURCE
#include <dlfcn.h>
#include <unistd.h>
static int late(const char *name, int fd) {
  int (*real)(int) = (int (*)(int))dlsym(RTLD_NEXT, name);
  sleep(SECONDS);
  return real(fd);
}
int fsync(int fd) { return late("fsync", fd); }
int fdatasync(int fd) { return late("fdatasync", fd); }
`;

/**
 * What a process needs in its environment so that every thread of it meets a disk that takes so long for each write. The
 * program itself is not changed. @throws Error when gcc is not installed
 */
export const slowDisk = (seconds: number): Readonly<Record<string, string>> => {
  const folder = mkdtempSync(join(tmpdir(), 'rillkeeper-disk-'));
  const [source, library] = [join(folder, 'slow.c'), join(folder, 'slow.so')];
  writeFileSync(source, SOURCE);
  execFileSync('gcc', ['-shared', '-fPIC', `-DSECONDS=${seconds}`, source, '-o', library, '-ldl']);
  return { LD_PRELOAD: library };
};
