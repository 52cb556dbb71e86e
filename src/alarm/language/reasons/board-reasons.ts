import type { InFour } from './in-four.ts';

const FLASH = 'rillkeeper board flash FARM --board PORT';

/** Why a port gives no board, why a board is not driven, and who else holds the pump. */
export const BOARD_REASONS = {
  'port-taken': {
    en: 'another program has this port, perhaps a running rillkeeper',
    pt: 'outro programa tem esta porta, talvez um rillkeeper já a correr',
    es: 'otro programa tiene este puerto, quizá un rillkeeper en marcha',
    fr: 'un autre programme tient ce port, peut-être un rillkeeper en marche',
  },
  'port-no-right': {
    en: 'no right to open it; join the group that owns the port, often dialout, and log in again',
    pt: 'sem direito de a abrir; entre no grupo dono da porta, muitas vezes dialout, e inicie sessão de novo',
    es: 'sin permiso para abrirlo; entre en el grupo dueño del puerto, a menudo dialout, e inicie sesión de nuevo',
    fr: "pas le droit de l'ouvrir ; rejoignez le groupe du port, souvent dialout, et reconnectez-vous",
  },
  'no-such-port': {
    en: 'there is no such port',
    pt: 'essa porta não existe',
    es: 'ese puerto no existe',
    fr: "ce port n'existe pas",
  },
  'not-a-serial-port': {
    en: 'this is no serial port',
    pt: 'isto não é uma porta série',
    es: 'esto no es un puerto serie',
    fr: "ce n'est pas un port série",
  },
  'no-serial-port': {
    en: 'no serial port is there',
    pt: 'não há nenhuma porta série',
    es: 'no hay ningún puerto serie',
    fr: "il n'y a aucun port série",
  },
  'ports-unlisted': {
    en: 'serial ports cannot be listed: {said}',
    pt: 'não se conseguem listar as portas série: {said}',
    es: 'no se pueden listar los puertos serie: {said}',
    fr: 'impossible de lister les ports série : {said}',
  },
  'library-failed': {
    en: 'the device library failed: {said}',
    pt: 'a biblioteca da placa falhou: {said}',
    es: 'falló la biblioteca de la placa: {said}',
    fr: 'la bibliothèque de la carte a échoué : {said}',
  },
  'never-silent': {
    en: 'what is at this port never falls silent; it is no modem, or the port is wrong',
    pt: 'o que está nesta porta nunca se cala; não é um modem, ou a porta é outra',
    es: 'lo que hay en este puerto nunca calla; no es un módem, o el puerto es otro',
    fr: "ce qui est à ce port ne se tait jamais ; ce n'est pas un modem, ou ce n'est pas le bon port",
  },
  'board-unwanted': {
    en: 'another board answers: {found}; the farm file wants "{wanted}" (board.identity)',
    pt: 'responde outra placa: {found}; o ficheiro da exploração quer "{wanted}" (board.identity)',
    es: 'responde otra placa: {found}; el archivo de la finca quiere "{wanted}" (board.identity)',
    fr: `une autre carte répond : {found} ; le fichier de l'exploitation veut "{wanted}" (board.identity)`,
  },
  'board-exchanged': {
    en: 'another board answers: {found}; this host was driving {before}. Restart it to take another board',
    pt: 'responde outra placa: {found}; este computador usava {before}. Reinicie-o para aceitar outra placa',
    es: 'responde otra placa: {found}; este ordenador usaba {before}. Reinícielo para aceptar otra placa',
    fr: 'une autre carte répond : {found} ; cet ordinateur pilotait {before}. Redémarrez-le pour en accepter une autre',
  },
  'board-numbered': {
    en: '"{firmware}", serial number {serial}',
    pt: '"{firmware}", número de série {serial}',
    es: '"{firmware}", número de serie {serial}',
    fr: '"{firmware}", numéro de série {serial}',
  },
  'bare-probe-on-stock': {
    en: `the farm file wires a bare probe (board.probe.drivenBy), which stock firmware cannot drive; wire a module, or flash the board: ${FLASH}`,
    pt: `o ficheiro da exploração liga uma sonda nua (board.probe.drivenBy), que o firmware de série não sabe usar; ligue um módulo, ou grave a placa: ${FLASH}`,
    es: `el archivo de la finca conecta una sonda desnuda (board.probe.drivenBy), que el firmware de serie no sabe usar; conecte un módulo, o grabe la placa: ${FLASH}`,
    fr: `le fichier de l'exploitation branche une sonde nue (board.probe.drivenBy), que le micrologiciel d'origine ne sait pas piloter ; branchez un module, ou flashez la carte : ${FLASH}`,
  },
  'no-such-pin': {
    en: 'the farm file wires board.{key} to pin {pin}, which this board does not have for it',
    pt: 'o ficheiro da exploração liga board.{key} ao pino {pin}, que esta placa não tem para isso',
    es: 'el archivo de la finca conecta board.{key} al pin {pin}, que esta placa no tiene para eso',
    fr: "le fichier de l'exploitation branche board.{key} sur la broche {pin}, que cette carte n'a pas pour cela",
  },
  'not-set-up': {
    en: `the board is not set up: it drives no pin and keeps no plants. Flash it: ${FLASH}`,
    pt: `a placa não está configurada: não comanda nada e não rega. Grave-a: ${FLASH}`,
    es: `la placa no está configurada: no acciona nada y no riega. Grábela: ${FLASH}`,
    fr: `la carte n'est pas configurée : elle ne commande rien et n'arrose pas. Flashez-la : ${FLASH}`,
  },
  'keeper-protocol': {
    en: `the board's firmware {firmware} speaks keeper protocol {protocol}, this program {ours}: flash the board with this program (${FLASH}), or update the program`,
    pt: `o firmware {firmware} da placa fala o protocolo {protocol}, este programa o {ours}: grave a placa com este programa (${FLASH}), ou atualize o programa`,
    es: `el firmware {firmware} de la placa habla el protocolo {protocol}, este programa el {ours}: grabe la placa con este programa (${FLASH}), o actualice el programa`,
    fr: `le micrologiciel {firmware} de la carte parle le protocole {protocol}, ce programme le {ours} : flashez la carte avec ce programme (${FLASH}), ou mettez le programme à jour`,
  },
  'setup-untold': {
    en: "this program was not told the farm's setup, and drives no board without comparing it",
    pt: 'este programa não conhece a configuração da exploração, e sem a comparar não usa nenhuma placa',
    es: 'este programa no conoce la configuración de la finca, y sin compararla no usa ninguna placa',
    fr: "ce programme ne connaît pas la configuration de l'exploitation, et ne pilote aucune carte sans la comparer",
  },
  'setup-differs-at': {
    en: `the board was flashed {unsaid}. What to do: change {keys}, or flash the board again: ${FLASH}`,
    pt: `a placa foi gravada para outra coisa do que diz o ficheiro da exploração: mude {keys}, ou grave a placa de novo: ${FLASH}`,
    es: `la placa se grabó para otra cosa de la que dice el archivo de la finca: cambie {keys}, o grabe la placa de nuevo: ${FLASH}`,
    fr: `la carte a été flashée pour autre chose que ce que dit le fichier de l'exploitation : changez {keys}, ou flashez-la de nouveau : ${FLASH}`,
  },
  'setup-schema': {
    en: `the board was flashed {unsaid}. What to do: flash the board again: ${FLASH}`,
    pt: `a placa foi gravada com uma configuração que este programa não conhece: grave-a de novo: ${FLASH}`,
    es: `la placa se grabó con una configuración que este programa no conoce: grábela de nuevo: ${FLASH}`,
    fr: `la carte a été flashée avec une configuration que ce programme ne connaît pas : flashez-la de nouveau : ${FLASH}`,
  },
  'setup-byte': {
    en: `byte {byte} of the board's setup is {unsaid}. What to do: flash the board again: ${FLASH}`,
    pt: `o byte {byte} da configuração da placa é outro do que este programa dá: grave-a de novo: ${FLASH}`,
    es: `el byte {byte} de la configuración de la placa no es el que da este programa: grábela de nuevo: ${FLASH}`,
    fr: `l'octet {byte} de la configuration de la carte n'est pas celui de ce programme : flashez-la de nouveau : ${FLASH}`,
  },
  'board-took-pump': {
    en: 'the board has taken the pump, and floods by its own table',
    pt: 'a placa tomou conta da bomba, e rega pela sua própria tabela',
    es: 'la placa ha tomado la bomba, y riega por su propia tabla',
    fr: 'la carte a pris la pompe, et arrose selon son propre programme',
  },
  'board-gave-pump': {
    en: 'the board has given the pump to somebody else',
    pt: 'a placa deu a bomba a outro',
    es: 'la placa ha dado la bomba a otro',
    fr: 'la carte a donné la pompe à un autre',
  },
  'not-the-owner': {
    en: 'the board no longer takes this host for the owner of the pump',
    pt: 'a placa já não reconhece este computador como dono da bomba',
    es: 'la placa ya no reconoce a este ordenador como dueño de la bomba',
    fr: 'la carte ne reconnaît plus cet ordinateur comme maître de la pompe',
  },
  'held-by-button': {
    en: 'held by the button',
    pt: 'paragem pedida com o botão',
    es: 'parada pedida con el botón',
    fr: 'arrêt demandé par le bouton',
  },
  'held-by-board': {
    en: 'held by the board',
    pt: 'paragem pedida na placa',
    es: 'parada pedida en la placa',
    fr: 'arrêt demandé à la carte',
  },
} as const satisfies Readonly<Record<string, InFour>>;
