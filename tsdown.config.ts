import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, relative, resolve } from 'node:path';
import { defineConfig } from 'tsdown';

const RAW = '?raw';
/** In front of a file that is read as text; behind it, so that nobody takes it for a style sheet or a script. */
const TEXT = '\0text:';
const END = '.txt';
const packages = createRequire(import.meta.url);

/** `import text from './file?raw'` gives the file as text, so that what is built needs no file beside it. */
const rawText = {
  name: 'raw-text',
  // Before packages are left out of the bundle: a package that is read as text is in it.
  resolveId: {
    order: 'pre' as const,
    handler: (id: string, importer: string | undefined): string | null => {
      if (!id.endsWith(RAW)) return null;
      const file = id.slice(0, -RAW.length);
      const own = file.startsWith('.') && importer !== undefined;
      const found = own ? resolve(dirname(importer), file) : packages.resolve(file);
      // What is built names no folder of the machine that built it.
      return `${TEXT}${relative(import.meta.dirname, found)}${END}`;
    },
  },
  load: (id: string): { code: string; moduleType: 'js' } | null =>
    id.startsWith(TEXT)
      ? {
          code: `export default ${JSON.stringify(readFileSync(resolve(import.meta.dirname, id.slice(TEXT.length, -END.length)), 'utf8'))}`,
          moduleType: 'js',
        }
      : null,
};

export default defineConfig({
  // The pool looks for worker.mjs, the journal for journal.mjs, the herald for herald.mjs, each beside itself: what is
  // built stays in one folder. What stands below is for whoever builds it.
  entry: {
    main: 'firmware-host/main.ts',
    worker: 'firmware-host/work/worker.ts',
    journal: 'firmware-host/storage/journal/journal-worker.ts',
    herald: 'firmware-host/herald/herald-worker.ts',
    campaign: 'firmware-host/campaign/main.ts',
    'campaign-worker': 'firmware-host/campaign/worker.ts',
    'reliability-page': 'firmware-host/campaign/write-page.ts',
  },
  format: 'esm',
  platform: 'node',
  target: 'node20.19',
  outDir: 'dist',
  clean: true,
  dts: false,
  sourcemap: false,
  // What the host loads in a shed goes in with only the parts that are used and without its comments: each thread keeps the
  // text of all that it has loaded, and a host with a herald takes 10 MB less. Packages that load files of their own stay outside.
  deps: { alwaysBundle: ['commander', 'luxon', 'mqtt', 'nodemailer', 'yaml', 'zod'] },
  outputOptions: { comments: { legal: true, annotation: false, jsdoc: false } },
  logLevel: 'warn',
  plugins: [rawText],
});
