import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';

const BYTES_MAX = 256 * 1024 * 1024;

/** The newer Node that is installed beside this file. */
export const newerNode = (): string => {
  const place = `node_modules/node-${process.platform}-${process.arch}/bin/node`;
  const path = fileURLToPath(new URL(place, import.meta.url));
  if (!existsSync(path)) throw new Error('no newer Node: npm ci --prefix tests/engines');
  return path;
};

export const versionOf = (node: string): string =>
  execFileSync(node, ['--version'], { encoding: 'utf8' }).trim();

/** What a function of a module makes of a number in that Node, as the bytes of its Float64Array. */
export const inNode = (node: string, module: string, name: string, argument: number): Uint8Array =>
  execFileSync(
    node,
    [
      '--input-type=module',
      '--eval',
      `const { ${name} } = await import('${pathToFileURL(module).href}');
      process.stdout.write(Buffer.from(${name}(${String(argument)}).buffer));`,
    ],
    { maxBuffer: BYTES_MAX },
  );
