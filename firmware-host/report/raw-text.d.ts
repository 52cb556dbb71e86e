/** A file as text, put into the program when it is built: tsdown.config.ts does so, vitest by itself. */
declare module '*?raw' {
  const text: string;
  export default text;
}
