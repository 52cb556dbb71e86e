import type { InFour } from './in-four.ts';

/** Why no text or call leaves by the modem: what this program sees of it. */
export const MODEM_REASONS = {
  'modem-hangs': {
    en: 'the modem hangs and was told to start anew; if that does not help, pull it out and put it back',
    pt: 'o modem encravou e foi reiniciado; se não ajudar, tire-o e volte a pô-lo',
    es: 'el módem se colgó y se reinició; si no ayuda, sáquelo y vuelva a ponerlo',
    fr: 'le modem ne répond plus et a été relancé ; sinon, retirez-le et remettez-le',
  },
  'modem-off-question': {
    en: 'the modem answers what was not asked',
    pt: 'o modem responde ao que não se perguntou',
    es: 'el módem responde a lo que no se preguntó',
    fr: "le modem répond à ce qu'on n'a pas demandé",
  },
  'modem-asks-twice': {
    en: 'the modem asks for the words twice',
    pt: 'o modem pede o texto duas vezes',
    es: 'el módem pide el texto dos veces',
    fr: 'le modem demande le texte deux fois',
  },
  'modem-answers': {
    en: 'the modem answers {said}',
    pt: 'o modem responde {said}',
    es: 'el módem responde {said}',
    fr: 'le modem répond {said}',
  },
  'text-unanswered': {
    en: 'the network did not answer; the text may have gone out all the same',
    pt: 'a rede móvel não respondeu; a mensagem pode ter saído na mesma',
    es: 'la red móvil no respondió; el mensaje puede haber salido igualmente',
    fr: "le réseau n'a pas répondu ; le message est peut-être parti quand même",
  },
  'sim-locked': {
    en: 'the SIM card is locked ({state}); a phone can free it',
    pt: 'o cartão SIM está bloqueado ({state}); um telemóvel desbloqueia-o',
    es: 'la tarjeta SIM está bloqueada ({state}); un teléfono la desbloquea',
    fr: 'la carte SIM est bloquée ({state}) ; un téléphone la débloque',
  },
  'sim-asks-pin': {
    en: 'the SIM card asks for its PIN: set RILLKEEPER_SIM_PIN, or take the PIN off with a phone',
    pt: 'o cartão SIM pede o PIN: defina RILLKEEPER_SIM_PIN, ou tire o PIN com um telemóvel',
    es: 'la tarjeta SIM pide su PIN: defina RILLKEEPER_SIM_PIN, o quite el PIN con un teléfono',
    fr: 'la carte SIM demande son PIN : définissez RILLKEEPER_SIM_PIN, ou ôtez le PIN avec un téléphone',
  },
  'sim-refused-pin': {
    en: 'the SIM card has refused this PIN and is not tried again, since a third wrong PIN blocks it: correct RILLKEEPER_SIM_PIN, delete sim-pin-refused in the state folder, restart the host',
    pt: 'o cartão SIM recusou este PIN, que não se repete, pois o terceiro PIN errado bloqueia-o: corrija RILLKEEPER_SIM_PIN, apague sim-pin-refused na pasta de estado, reinicie o computador',
    es: 'la tarjeta SIM rechazó este PIN, que no se repite, pues el tercer PIN erróneo la bloquea: corrija RILLKEEPER_SIM_PIN, borre sim-pin-refused en la carpeta de estado, reinicie el ordenador',
    fr: "la carte SIM a refusé ce PIN, qui n'est pas réessayé, car un troisième PIN faux la bloque : corrigez RILLKEEPER_SIM_PIN, supprimez sim-pin-refused dans le dossier d'état, redémarrez l'ordinateur",
  },
  'text-not-deleted': {
    en: 'a text in the modem cannot be deleted, so the SIM memory may be full and take no more; empty it with a phone: {why}',
    pt: 'não se consegue apagar uma mensagem do modem; a memória do SIM pode estar cheia e não receber mais; esvazie-a com um telemóvel: {why}',
    es: 'no se puede borrar un mensaje del módem; la memoria de la SIM puede estar llena y no recibir más; vacíela con un teléfono: {why}',
    fr: "un message du modem ne peut pas être effacé ; la mémoire de la SIM est peut-être pleine et n'en prend plus ; videz-la avec un téléphone : {why}",
  },
  'text-comes-back': {
    en: 'it comes back',
    pt: 'ela volta',
    es: 'vuelve a aparecer',
    fr: 'il revient',
  },
  'texts-not-read': {
    en: 'the texts in the modem cannot be read: {why}',
    pt: 'não se conseguem ler as mensagens do modem: {why}',
    es: 'no se pueden leer los mensajes del módem: {why}',
    fr: 'les messages du modem ne peuvent pas être lus : {why}',
  },
  'modem-silent': {
    en: 'the modem did not answer in time',
    pt: 'o modem não respondeu a tempo',
    es: 'el módem no respondió a tiempo',
    fr: "le modem n'a pas répondu à temps",
  },
  'no-phone-number': {
    en: 'no phone number',
    pt: 'sem número de telefone',
    es: 'sin número de teléfono',
    fr: 'pas de numéro de téléphone',
  },
  'no-longer-wanted': {
    en: 'no longer wanted',
    pt: 'já não é preciso',
    es: 'ya no hace falta',
    fr: "ce n'est plus utile",
  },
  'no-call-made': {
    en: 'no call was made',
    pt: 'não se fez chamada nenhuma',
    es: 'no se hizo ninguna llamada',
    fr: "aucun appel n'a été passé",
  },
  'call-ended-early': {
    en: 'the call ended before the phone rang',
    pt: 'a chamada acabou antes de o telefone tocar',
    es: 'la llamada acabó antes de que sonara el teléfono',
    fr: "l'appel a fini avant que le téléphone sonne",
  },
  'phone-not-rung': {
    en: 'the network did not make the phone ring',
    pt: 'a rede móvel não fez tocar o telefone',
    es: 'la red móvil no hizo sonar el teléfono',
    fr: "le réseau n'a pas fait sonner le téléphone",
  },
  'call-cut': {
    en: 'the network did not put the call through, or it was cut',
    pt: 'a rede móvel não passou a chamada, ou ela foi cortada',
    es: 'la red móvil no pasó la llamada, o se cortó',
    fr: "le réseau n'a pas passé l'appel, ou il a été coupé",
  },
  'phone-busy': {
    en: 'the phone is busy',
    pt: 'o telefone está ocupado',
    es: 'el teléfono comunica',
    fr: 'le téléphone est occupé',
  },
  'no-network-sought': {
    en: 'the modem is in no network and looks for none; is the antenna on, is the card active?',
    pt: 'o modem não está em rede nem a procura; tem antena, o cartão está ativo?',
    es: 'el módem no está en ninguna red ni la busca; ¿tiene antena, está activa la tarjeta?',
    fr: "le modem n'est sur aucun réseau et n'en cherche pas ; a-t-il son antenne, la carte est-elle active ?",
  },
  'no-network-yet': {
    en: 'the modem looks for a network and has found none yet; is the antenna on?',
    pt: 'o modem procura rede e ainda não a encontrou; tem antena?',
    es: 'el módem busca red y aún no la ha encontrado; ¿tiene antena?',
    fr: "le modem cherche un réseau et n'en a pas encore trouvé ; a-t-il son antenne ?",
  },
  'card-not-let-in': {
    en: 'the network does not let this card in',
    pt: 'a rede móvel não deixa entrar este cartão',
    es: 'la red móvil no deja entrar esta tarjeta',
    fr: 'le réseau refuse cette carte',
  },
  'network-not-told': {
    en: 'the modem does not know whether it is in a network',
    pt: 'o modem não sabe se está em rede',
    es: 'el módem no sabe si está en una red',
    fr: "le modem ne sait pas s'il est sur un réseau",
  },
} as const satisfies Readonly<Record<string, InFour>>;
