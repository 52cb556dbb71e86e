import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Stands before the system's own calls: the first opening of the book in a process takes its time. */
const SOURCE = `#define _GNU_SOURCE
#include <dlfcn.h>
#include <stdarg.h>
#include <string.h>
#include <unistd.h>
static int was_late = 0;
static int late(const char *name, const char *path, int flags, int mode) {
  int (*real)(const char *, int, ...) = (int (*)(const char *, int, ...))dlsym(RTLD_NEXT, name);
  if (path && strstr(path, "/book.sqlite") && !was_late) {
    was_late = 1;
    sleep(SECONDS);
  }
  return real(path, flags, mode);
}
#define OPEN(name) int name(const char *path, int flags, ...) { \\
  va_list rest; va_start(rest, flags); int mode = va_arg(rest, int); va_end(rest); \\
  return late(#name, path, flags, mode); }
OPEN(open)
OPEN(open64)
`;

/**
 * What a process needs in its environment so that its book opens so late, as on a card that is worn out. The program
 * itself is not changed. @throws Error when gcc is not installed
 */
export const lateOpen = (seconds: number): Readonly<Record<string, string>> => {
  const folder = mkdtempSync(join(tmpdir(), 'rillkeeper-open-'));
  const [source, library] = [join(folder, 'late.c'), join(folder, 'late.so')];
  writeFileSync(source, SOURCE);
  execFileSync('gcc', ['-shared', '-fPIC', `-DSECONDS=${seconds}`, source, '-o', library, '-ldl']);
  return { LD_PRELOAD: library };
};
