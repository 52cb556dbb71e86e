import { defineConfig } from 'tsdown';

export default defineConfig({
  entry: { main: 'firmware-host/main.ts' },
  format: 'esm',
  platform: 'node',
  target: 'node20.19',
  outDir: 'dist',
  clean: true,
  dts: false,
  sourcemap: false,
  logLevel: 'warn',
});
