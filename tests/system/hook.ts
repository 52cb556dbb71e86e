import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';

/** What came to a web address that answers with this status, and when. */
export const hook = async (
  status = 200,
): Promise<{
  readonly url: string;
  readonly got: readonly { readonly text: string; readonly at: number }[];
  readonly close: () => void;
}> => {
  const got: { text: string; at: number }[] = [];
  const server = createServer((request, response) => {
    let text = '';
    request.on('data', (piece: Buffer) => (text += piece.toString()));
    request.on('end', () => {
      got.push({ text, at: performance.now() });
      response.writeHead(status).end();
    });
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  return {
    url: `http://127.0.0.1:${port}/`,
    got,
    close: () => {
      server.closeAllConnections();
      server.close();
    },
  };
};
