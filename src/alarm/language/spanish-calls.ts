import { countsText, type CallWords } from './call-language.ts';
import { decimalComma } from './language.ts';

const COUNTS = {
  weak: (count: number) => `${count} ${count === 1 ? 'flojo' : 'flojos'}`,
  unproven: (count: number) => `${count} sin confirmar`,
  missed: (count: number) => `${count} ${count === 1 ? 'fallido' : 'fallidos'}`,
  withheld: (count: number) => `${count} ${count === 1 ? 'retenido' : 'retenidos'}`,
};

export const SPANISH_CALLS: CallWords = {
  names: {
    'missed-flood': 'riego fallido',
    'weak-flow': 'riego flojo',
    'return-lower': 'retorno menor',
    'mains-lost': 'sin luz',
    'pump-runs-on': 'la bomba no para',
    'tank-low': 'depósito bajo',
    'float-suspect': 'boya dudosa',
    'tank-falls': 'depósito baja',
    'tank-full': 'depósito lleno hasta el borde',
    'strength-off': 'fuerza fuera de su margen',
    'water-on-floor': 'agua en el suelo',
    'flow-sensor-silent': 'sensor de caudal mudo',
    'flow-sensor-stuck': 'sensor de caudal trabado',
    'clock-stepped': 'el reloj está en duda',
    'no-good-temperature': 'sin temperatura fiable',
    'hold-is-long': 'parada larga',
    'drying-out': 'mesas secándose',
    'board-silent': 'placa no responde',
    'channel-dead': 'una vía de aviso falla',
    'not-recording': 'no se registra nada',
    'safe-mode': 'modo mínimo',
    'past-unread': 'lo que se sabía no se ha leído',
    'clock-drift': 'los relojes no coinciden',
    'relay-chatters': 'relé que castañetea',
    'float-unmoved': 'boya sin moverse',
    'line-bad': 'mala línea con la placa',
    'host-hot': 'ordenador caliente',
    'host-large': 'ordenador sin memoria',
    'host-battery': 'batería del ordenador',
  },
  openings: { raised: '', again: 'Sigue: ', escalated: 'Nadie ha respondido aún: ', returned: 'Terminado: ' },
  briefOpenings: { raised: '', again: 'Sigue: ', escalated: 'Sin respuesta: ', returned: 'Terminado: ' },
  comesAndGoes: 'Va y viene.',
  lists: { with: 'Además:', still: 'Sigue:', over: 'Terminado:', first: 'Empezó por:' },
  allWell: 'Todo bien.',
  floods: (counts) =>
    `${counts.confirmed} ${counts.confirmed === 1 ? 'riego confirmado' : 'riegos confirmados'} en 24 h, ${countsText(counts, COUNTS)}.`,
  tank: (tank) =>
    typeof tank === 'number'
      ? `Depósito ${tank.toFixed(0)} L.`
      : `Depósito ${tank === 'well' ? 'bien' : 'bajo'}.`,
  strength: (strength) => `Fuerza ${decimalComma(strength.toFixed(1))} mS/cm.`,
  withoutPump: (span) => `Sin la bomba: ${span === null ? 'más de un día' : `unos ${span}`}.`,
};
