import { expect } from 'vitest';
import { EXIT, type ExitCode } from '../../../firmware-host/cli/exit-code.ts';
import { Refusal } from '../../../firmware-host/cli/refusal.ts';

/** Holds that `call` refuses with an exit code, and with a message that says each of the words. */
export const expectRefusal = (
  call: () => unknown,
  says: readonly string[],
  exitCode: ExitCode = EXIT.usage,
): void => {
  let refusal: unknown = null;
  try {
    call();
  } catch (error) {
    refusal = error;
  }
  expectRefused(refusal, says, exitCode);
};

export const expectRefused = (
  refusal: unknown,
  says: readonly string[],
  exitCode: ExitCode = EXIT.usage,
): void => {
  expect(refusal).toBeInstanceOf(Refusal);
  if (!(refusal instanceof Refusal)) return;
  expect(refusal.exitCode).toBe(exitCode);
  for (const words of says) expect(refusal.message).toContain(words);
};
