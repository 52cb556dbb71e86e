import { userInfo } from 'node:os';

/** The user by name, or by number where the machine has no name for it. */
export const userName = (): string => {
  try {
    return userInfo().username;
  } catch {
    return `user ${String(process.getuid?.() ?? 'unknown')}`;
  }
};
