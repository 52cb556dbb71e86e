import { realpath, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { readWhole } from '../storage/atomic-file.ts';
import { writeInTime } from '../storage/write-in-time.ts';
import type { UsbPorts } from './port-power.ts';
import { isOnlyThere, switchPort, SYSTEM, usbPortOf, type SystemRoots } from './usb-port.ts';

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** The USB ports of a Linux machine; which one is off is noted in the state folder of the farm. */
export const linuxPorts = (folder: string, roots: SystemRoots = SYSTEM): UsbPorts => {
  const note = join(folder, 'usb-port-off');
  return {
    portOf: (line) => usbPortOf(line, roots),
    isOnlyThere: (port, line) => isOnlyThere(port, line, roots),
    turn: switchPort,
    leftOff: async () => {
      try {
        const port = (await readWhole(note))?.trim() ?? '';
        // Nothing is written to anything but a port, whatever stands there.
        const isPort = port.startsWith(`${await realpath(roots.sys)}/`) && /\/[^/]+-port\d+$/.test(port);
        return isPort && !port.includes('/../') ? port : null;
      } catch {
        return null;
      }
    },
    note: async (port) => {
      try {
        if (port === null) await rm(note, { force: true });
        else await writeInTime(note, `${port}\n`);
        return null;
      } catch (error) {
        return wordsOf(error);
      }
    },
  };
};
