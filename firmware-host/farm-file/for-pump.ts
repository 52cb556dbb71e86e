import type { FarmProblem } from '../../src/farm/parse.ts';
import type { ReadFarmFile } from './read.ts';

const INVENTED: FarmProblem = {
  path: ['invented'],
  found: 'a farm that is invented',
  allowed: 'none on a real board',
  problem: 'Its plan fits no real plants.',
  pointsAt: 'key',
  advice: 'Once the file is yours, delete the key.',
};
const NO_PINS: FarmProblem = {
  path: ['board'],
  found: 'nothing',
  allowed: 'the section "board:" where a pump is run',
  problem: 'Nobody knows which pin carries what.',
  advice: 'hardware-notes/wiring.md has one to begin with.',
};

/** The same farm, where a real pump can be run by it; else what keeps it from that, as problems of the file. */
export const forPump = (read: ReadFarmFile): ReadFarmFile => {
  if (!read.ok) return read;
  const { farm, file, locate } = read;
  const problems = [
    ...(farm.invented === undefined ? [] : [INVENTED]),
    ...(farm.board === undefined ? [NO_PINS] : []),
  ].map((problem) => ({ ...problem, ...locate(problem.path, problem.pointsAt) }));
  return problems.length === 0 ? read : { ok: false, file, problems };
};
