import { realpath } from 'node:fs/promises';
import { SerialPort } from 'serialport';
import type { UsbIds } from '../firmware-image/bootloader.ts';

/** What the system knows of the USB device behind a port, also by another name of it; null when it knows nothing. */
export const usbIdsOf = async (port: string): Promise<UsbIds | null> => {
  const real = await realpath(port).catch(() => port);
  const ports = await SerialPort.list().catch((): Awaited<ReturnType<typeof SerialPort.list>> => []);
  const found = ports.find(({ path }) => path === port || path === real);
  return found?.vendorId === undefined || found.productId === undefined
    ? null
    : { vendor: found.vendorId.toLowerCase(), product: found.productId.toLowerCase() };
};
