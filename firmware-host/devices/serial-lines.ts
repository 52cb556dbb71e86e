import { once } from 'node:events';
import { readdir } from 'node:fs/promises';
import { setTimeout } from 'node:timers/promises';
import { SerialPort } from 'serialport';
import type { LineCandidate, LineSource, OpenLine } from './line.ts';

/** Of stock Firmata. */
const BAUD = 57_600;
/** USB modems take any speed; those at a real serial line find this one by themselves (V.250, 6.2.10). */
const MODEM_BAUD = 115_200;
/** A port that does not take its last bytes within this is closed without them. */
const LAST_BYTES_MILLIS = 500;

/** What the system says of a port that it does not open, and what to do where that is known. */
const refusedWords = (message: string): string => {
  if (message.includes('Cannot lock port') || message.includes('Resource temporarily unavailable'))
    return 'another program has this port, perhaps a running rillkeeper';
  if (message.includes('Permission denied'))
    return 'no right to open it; join the group that owns the port, often dialout, and log in again';
  if (message.includes('No such file')) return 'there is no such port';
  if (message.includes('Inappropriate ioctl') || message.includes('Is a directory'))
    return 'this is no serial port';
  return message.replace(/^Error: /, '');
};

/**
 * Closes once the system has taken the last bytes. It is not asked to wait until they are on the wire: on a line
 * that hangs that question would never come back, and keep the process from ending.
 */
const closed = async (port: SerialPort): Promise<void> => {
  if (port.writableLength > 0) {
    await Promise.race([once(port, 'drain'), setTimeout(LAST_BYTES_MILLIS)]).catch(() => undefined);
  }
  if (!port.isOpen) return;
  await new Promise<void>((done) => {
    port.close(() => {
      done();
    });
  });
};

/** Opens lines at one speed. */
export const linesAt =
  (baudRate: number): OpenLine =>
  (name, events, atOpening = 'may-reset') => {
    let over = false;
    const port = new SerialPort({
      path: name,
      baudRate,
      hupcl: atOpening === 'may-reset',
      autoOpen: false,
    });
    const lost = (why: string): void => {
      if (over) return;
      over = true;
      events.lost(why);
    };
    // A port without a listener for errors would end the process, so this one stays to the end.
    port.on('error', (error) => {
      lost(refusedWords(error.message));
    });
    port.on('close', () => {
      lost('unplugged');
    });
    port.on('data', (bytes: Buffer) => {
      if (!over) events.heard(bytes);
    });
    port.open((error) => {
      if (error !== null) lost(refusedWords(error.message));
      else if (!over) events.opened();
      else port.close(() => undefined);
    });
    return {
      write: (bytes) => {
        if (!over && port.isOpen) port.write(Buffer.from(bytes));
      },
      close: () => {
        over = true;
        return closed(port);
      },
    };
  };

/** To a modem. */
export const modemLines: OpenLine = linesAt(MODEM_BAUD);

const BOARD_PORT = /^(?:ttyACM|ttyUSB)\d+$/;

/** What the file system shows, where the device manager of the machine cannot be asked: names without numbers. */
const portsInDev = async (): Promise<readonly LineCandidate[]> => {
  const names = await readdir('/dev').catch((): readonly string[] => []);
  return names
    .filter((name) => BOARD_PORT.test(name))
    .map((name) => ({ name: `/dev/${name}`, serialNumber: null, says: 'no device manager to ask about it' }));
};

const listed = async (): Promise<readonly LineCandidate[]> => {
  const ports = await SerialPort.list();
  return ports
    .filter(({ vendorId, path }) => vendorId !== undefined || /ttyACM|ttyUSB|cu\.usb/.test(path))
    .map(({ path, serialNumber, manufacturer, vendorId, productId }) => ({
      name: path,
      serialNumber: serialNumber ?? null,
      says: [manufacturer, vendorId === undefined ? undefined : `USB ${vendorId}:${productId ?? '?'}`]
        .filter((word) => word !== undefined)
        .join(', '),
    }));
};

/** The serial ports of this machine. */
export const serialLines: LineSource = {
  open: linesAt(BAUD),
  candidates: () =>
    listed().catch((error: unknown) => {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return portsInDev();
      throw error;
    }),
};
