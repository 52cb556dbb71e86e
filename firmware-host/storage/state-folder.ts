import { homedir } from 'node:os';
import { join } from 'node:path';

const LETTERS_MAX = 60;

/** The farm's name as part of a path: small letters, digits and dashes. */
export const slug = (farm: string): string =>
  farm
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, LETTERS_MAX) || 'farm';

/**
 * What belongs to no farm alone, and the folders of them all. `RILLKEEPER_STATE` names another than the usual one of the XDG
 * base directory specification.
 */
export const stateRoot = (env: NodeJS.ProcessEnv = process.env): string => {
  const own = env['RILLKEEPER_STATE'];
  const base = env['XDG_STATE_HOME'];
  return own !== undefined && own !== ''
    ? own
    : join(base !== undefined && base !== '' ? base : join(homedir(), '.local', 'state'), 'rillkeeper');
};

/** Where the host keeps what must outlive it: calibration, status. */
export const stateFolder = (farm: string, env?: NodeJS.ProcessEnv): string =>
  join(stateRoot(env), slug(farm));

/** A simulated shed keeps its state apart: it must not speak for a farm whose real host runs. */
export const demoFolder = (farm: string, env?: NodeJS.ProcessEnv): string => `${stateFolder(farm, env)}-demo`;
