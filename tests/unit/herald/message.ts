import type { Form, Message, Sent } from '../../../src/delivery/message.ts';
import { wallMillis } from '../../../src/time/instant.ts';
import { RAISED } from '../delivery/virtual-network.ts';

export const MESSAGE: Message = {
  id: 7,
  form: 'mail',
  to: { name: 'Ana', phone: '+351912000001', email: 'ana@example.org' },
  text: RAISED.text,
  call: RAISED,
  calledAt: wallMillis(Date.parse('2026-07-14T12:42:00Z')),
  purpose: 'call',
};
export const postMessage = { ...MESSAGE, form: 'post' as Form, to: null };

export const words = (sent: Sent): string =>
  sent.kind === 'sent' ? `sent: ${sent.says}` : `${sent.again}: ${sent.why}`;
