import { createRequire } from 'node:module';

/** What is used of quickjs-emscripten-core 0.32.0, and a value that lives in the other engine. */
interface Handle {
  readonly value: Uint8Array;
}
interface Context {
  readonly undefined: Handle;
  evalCode(code: string, name: string, options: { readonly type: 'module' }): unknown;
  unwrapResult(result: unknown): Handle;
  getProp(of: Handle, name: string): Handle;
  newNumber(value: number): Handle;
  callFunction(called: Handle, self: Handle, argument: Handle): unknown;
  getArrayBuffer(of: Handle): Handle;
}

/** Not imported by name: these packages are installed beside this file, for the tests alone. */
const packages = createRequire(import.meta.url);

/**
 * QuickJS-NG compiled to WebAssembly: an engine that shares neither compiler nor library of functions with V8. Gives what a
 * function of a module makes of a number, as the bytes of its Float64Array.
 */
export const inQuickJs = async (code: string, name: string, argument: number): Promise<Uint8Array> => {
  const { newQuickJSWASMModuleFromVariant } = packages('quickjs-emscripten-core') as {
    readonly newQuickJSWASMModuleFromVariant: (variant: unknown) => Promise<{ newContext(): Context }>;
  };
  const variant = packages('@jitl/quickjs-ng-wasmfile-release-sync') as { readonly default: unknown };
  const context = (await newQuickJSWASMModuleFromVariant(variant.default)).newContext();
  const module = context.unwrapResult(context.evalCode(code, 'bundle.mjs', { type: 'module' }));
  const called = context.getProp(module, name);
  const array = context.unwrapResult(
    context.callFunction(called, context.undefined, context.newNumber(argument)),
  );
  return context.getArrayBuffer(context.getProp(array, 'buffer')).value.slice();
};
