/** How every command ends. Documented in docs/operating.md. */
export const EXIT = {
  /** Done; for `rehearse`: the plan holds, at least while no flood is missed; for `tune`: a plan is safe. */
  done: 0,
  /** `rehearse`: a bench may wilt. `tune`: no plan that was tried is safe. `status`: something is wrong, or no host runs. `herald test`: a message was not taken. */
  notWell: 1,
  /** The command line itself is wrong. */
  usage: 2,
  /** Another host on this machine runs this farm, or has this board: one pump has one host. */
  anotherHost: 3,
  /** A farm file or weather file was refused. */
  badInput: 4,
  /** No board answers, or it is another program's. */
  noBoard: 69,
  /** A defect in the program. */
  internal: 70,
  /** stdout could not be written, as on a full disk. */
  outputLost: 74,
  /** `run` under a service manager: memory had grown, the host ended between floods, and is to be started anew (EX_TEMPFAIL, sysexits.h). */
  renewed: 75,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];
