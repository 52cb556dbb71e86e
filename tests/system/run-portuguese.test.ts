import { describe, expect, it, vi } from 'vitest';
import { briskFarm } from './brisk-farm.ts';
import { linesOf, startedLong } from './rillkeeper.ts';

const SECONDS = 1000;
vi.setConfig({ testTimeout: 150 * SECONDS });

const HERALD = `
language: pt
herald:
  people: [{ name: Ana, phone: '+351912000001' }]
  modem: { port: /dev/rillkeeper-no-modem }
`;

describe('a host of a Portuguese farm in its third start within 10 min, without board and modem', () => {
  it('raises safe mode, board and modem with reasons in Portuguese, and none of its own English', async () => {
    const { file } = briskFarm('Horta', HERALD);
    const run = ['run', file, '--board', '/dev/rillkeeper-no-board'];
    for (let start = 0; start < 2; start += 1) {
      const killed = startedLong(...run);
      await killed.said('Horta: running');
      killed.child.kill('SIGKILL');
      await killed.ended;
    }
    const running = startedLong(...run);
    await Promise.all([
      running.said('O computador trabalha com o mínimo'),
      running.said('A placa não responde'),
      running.said('Não se chega a ninguém por modem'),
    ]);
    running.child.kill('SIGTERM');
    const { stdout } = await running.ended;
    const alarms = linesOf(stdout).filter((line) => line.includes('ALARM ('));
    const of = (words: string): string => alarms.find((line) => line.includes(words)) ?? '';
    expect(of('O computador trabalha')).toContain(
      'depois de 3 arranques: arrancou 3 vezes em 10 min sem ninguém o parar.',
    );
    expect(of('A placa não responde')).toContain('/dev/rillkeeper-no-board: essa porta não existe');
    expect(of('Não se chega a ninguém por modem')).toContain(': essa porta não existe.');
    expect(alarms.join('\n')).not.toMatch(/\bthere is|this host|started|"/);
  });
});
