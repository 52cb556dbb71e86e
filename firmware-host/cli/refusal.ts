import { EXIT, type ExitCode } from './exit-code.ts';

/** Input that cannot be worked with: what, where, what is allowed and what to do stand in the message. */
export class Refusal extends Error {
  override readonly name = 'Refusal';
  readonly exitCode: ExitCode;
  /** The same for `--json`. */
  readonly problems: readonly unknown[];

  constructor(message: string, exitCode: ExitCode = EXIT.badInput, problems: readonly unknown[] = []) {
    super(message);
    this.exitCode = exitCode;
    this.problems = problems;
  }
}
