import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'tsdown';

/** Bundles one file and all that it imports, as the product is bundled, and gives the path of the bundle. */
export const bundled = async (entry: string): Promise<string> => {
  const outDir = mkdtempSync(join(tmpdir(), 'rillkeeper-bundle-'));
  await build({
    config: false,
    entry: { bundle: entry },
    format: 'esm',
    platform: 'node',
    target: 'es2023',
    outDir,
    dts: false,
    sourcemap: false,
    logLevel: 'silent',
    // What is not of this project stays outside.
    deps: { skipNodeModulesBundle: true },
  });
  return join(outDir, 'bundle.mjs');
};
