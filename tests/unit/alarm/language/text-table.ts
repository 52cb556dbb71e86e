/** Every kind of alarm in full, in the languages that no other test holds word for word. */
export const TEXTS: Readonly<Record<'pt' | 'es' | 'fr', Readonly<Record<string, string>>>> = {
  pt: {
    'missed, no mains':
      'Falta a corrente da rede e a bomba está parada: não volta água desde as 13:42. Bench 2 pode começar a murchar a partir das 14:40 (faltam cerca de 43 min). Veja o fusível e o diferencial; na rede elétrica só mexe um eletricista habilitado. Se demorar, leve água às bancadas à mão.',
    'missed, no contact':
      'O relé não fechou: não volta água desde as 13:42. Bench 2 pode começar a murchar a partir das 14:40 (faltam cerca de 43 min). Veja primeiro a placa e o relé; entretanto pode ligar a bomba pela sua própria ficha.',
    'missed, no current':
      'A bomba não puxou corrente: não volta água desde as 13:42. Bench 2 pode começar a murchar a partir das 14:40 (faltam cerca de 43 min). A bomba está ligada à tomada? O interruptor está desligado? Depois veja o fusível e o diferencial; na rede elétrica só mexe um eletricista habilitado.',
    'missed, tank fell':
      'O depósito baixou, mas não volta água desde as 13:42. Bench 2 pode começar a murchar a partir das 14:40 (faltam cerca de 43 min). Tire a bomba da tomada antes de meter as mãos, e volte a ligá-la no fim. Procure primeiro um tubo solto entre a bomba e as bancadas, depois veja o sensor de caudal.',
    'missed, pump ran':
      'A bomba trabalhou, mas não volta água desde as 13:42. Bench 2 pode começar a murchar a partir das 14:40 (faltam cerca de 43 min). Tire a bomba da tomada antes de meter as mãos, e volte a ligá-la no fim. Veja primeiro o filtro, depois a entrada da bomba, depois se há um tubo solto.',
    'missed, switched on':
      'A bomba foi ligada, mas não volta água desde as 13:42. Bench 2 pode começar a murchar a partir das 14:40 (faltam cerca de 43 min). A bomba está ligada à tomada? Tire a bomba da tomada antes de meter as mãos, e volte a ligá-la no fim. Depois veja o filtro e a entrada da bomba.',
    'mains lost':
      'Falta a corrente da rede desde as 13:55: a bomba está parada. Bench 2 pode começar a murchar a partir das 14:40 (faltam cerca de 43 min). Veja o fusível e o diferencial; na rede elétrica só mexe um eletricista habilitado. Se demorar, leve água às bancadas à mão. A balde: primeiro Bench 2, 3,5 L por calha a cada 15 min.',
    'mains doubtful':
      'O contacto da rede diz que falta corrente desde as 13:55, mas a bomba está a puxar corrente: um dos dois está errado. Bench 2 pode começar a murchar a partir das 14:40 (faltam cerca de 43 min). Veja se a bomba trabalha, depois o contacto.',
    'board silent':
      'A placa não responde desde as 13:56 (/dev/ttyUSB0: cabo desligado); não se pode dar nenhuma rega. Bench 2 pode começar a murchar a partir das 14:40 (faltam cerca de 43 min). Tire a ficha USB da placa e volte a pô-la; veja se o temporizador está a regar.',
    'board silent, keeps':
      'A placa não responde desde as 13:56 (/dev/ttyUSB0: cabo desligado); deve regar pela sua própria tabela, sem ninguém ver. Se não regar: Bench 2 pode começar a murchar a partir das 14:40 (faltam cerca de 43 min). Veja bancadas e temporizador; tire a ficha USB da placa e volte a pô-la.',
    'pump runs on':
      'A bomba foi desligada, mas está a puxar corrente desde as 13:55. O depósito pode ficar vazio ou transbordar. Tire a bomba da tomada, depois veja o relé.',
    'tank low':
      'O depósito está baixo desde as 13:52; só são dadas regas mínimas. Bench 2 pode começar a murchar a partir das 14:40 (faltam cerca de 43 min). Olhe para dentro do depósito. Tire a bomba da tomada antes de meter as mãos, e volte a ligá-la no fim. Encha-o, ou solte a boia à mão se estiver presa.',
    'float suspect':
      'A boia do depósito marca baixo desde as 13:27, mas volta água; continuam regas encurtadas. Bench 2 pode começar a murchar a partir das 14:40 (faltam cerca de 43 min). Olhe para dentro do depósito. Tire a bomba da tomada antes de meter as mãos, e volte a ligá-la no fim. Experimente a boia à mão.',
    'tank falls':
      'O depósito baixa pelo menos 48 L por hora a mais do que as plantas podem beber. A este ritmo deixa de chegar para uma rega inteira dentro de cerca de 3 h 11 min (17:08). Não se chegue a tomadas molhadas. Procure água no chão, depois veja a saída das calhas, depois o enchimento. Se tudo estiver seco: o ficheiro da exploração tem todas as bancadas plantadas?',
    'tank falls, too low':
      'O depósito baixa pelo menos 60 L por hora a mais do que as plantas podem beber. Pode já não chegar para uma rega inteira. Não se chegue a tomadas molhadas. Procure água no chão, depois veja a saída das calhas, depois o enchimento. Se tudo estiver seco: o ficheiro da exploração tem todas as bancadas plantadas?',
    'tank falls, not soon':
      'O depósito baixa pelo menos 16 L por hora a mais do que as plantas podem beber. A este ritmo chega para regar nas próximas 20 horas. Não se chegue a tomadas molhadas. Procure água no chão, depois veja a saída das calhas, depois o enchimento. Se tudo estiver seco: o ficheiro da exploração tem todas as bancadas plantadas?',
    'tank full':
      'O depósito está cheio até à borda e assim fica: 598 de 600 L. Pode transbordar, e a solução fica mais fraca. Não se chegue a tomadas molhadas. Feche o enchimento à mão, depois solte, repare ou baixe a válvula.',
    'too strong':
      'A solução está forte de mais: 2,60 mS/cm a 25 °C, o habitual é 1,60. As raízes tiram água com cada vez mais custo, e as folhas podem queimar nas bordas. Meça primeiro com outro medidor: uma sonda pode mentir. Se for assim, tire cerca de 195 L e ponha outro tanto de água simples, também ela medida antes, aos poucos, e volte a medir depois de uma rega de cada vez. Use luvas e óculos de proteção; nunca misture concentrados.',
    'too strong, room':
      'A solução está forte de mais: 2,60 mS/cm a 25 °C, o habitual é 1,60. As raízes tiram água com cada vez mais custo, e as folhas podem queimar nas bordas. Meça primeiro com outro medidor: uma sonda pode mentir. Se for assim, junte cerca de 64 L de água simples, também ela medida antes, aos poucos, e volte a medir depois de uma rega de cada vez. Use luvas e óculos de proteção; nunca misture concentrados.',
    'too strong, salty top-up':
      'A solução está forte de mais: 2,60 mS/cm a 25 °C, o habitual é 1,60. As raízes tiram água com cada vez mais custo, e as folhas podem queimar nas bordas. Meça primeiro com outro medidor: uma sonda pode mentir. Se for assim, a água do enchimento não a pode diluir, pois é tão forte como ela deve ser: use água mais fraca, como a da chuva. Use luvas e óculos de proteção; nunca misture concentrados.',
    'too strong, back':
      'A solução esteve fora da sua faixa e volta a ler 1,70 mS/cm a 25 °C, o habitual é 1,60. As raízes tiram água com cada vez mais custo, e as folhas podem queimar nas bordas. Meça primeiro com outro medidor: uma sonda pode mentir. Se for assim, não junte nada agora, e volte a medir depois da próxima rega. Use luvas e óculos de proteção; nunca misture concentrados.',
    'too weak, silent':
      'A solução está fraca de mais: 0,90 mS/cm a 25 °C, o habitual é 1,60. A sonda não dá leitura boa desde as 13:42. As plantas vivem, mas crescem devagar e pálidas. Meça primeiro com outro medidor: uma sonda pode mentir. Se for assim, junte solução-mãe em pequenas doses, e volte a medir depois de uma rega de cada vez. Use luvas e óculos de proteção; nunca misture concentrados.',
    'leak and overflow':
      'Água onde não devia haver: sensor de fugas e boia de transbordo estão molhados. As regas são encurtadas ou paradas até secar. Não se chegue a tomadas molhadas. Procure um retorno entupido ou um tubo solto.',
    hold: 'Sem rega desde as 13:37: paragem pedida por Ana. Bench 2 pode começar a murchar a partir das 14:40 (faltam cerca de 43 min). Acabe a paragem quando as mãos estiverem fora da água.',
    'dry, float low':
      'Sem rega desde as 13:37: a boia do depósito marca baixo. Bench 2 pode começar a murchar a partir das 14:40 (faltam cerca de 43 min). Leve água às bancadas à mão, depois repare a causa. A balde: primeiro Bench 2, 3,5 L por calha a cada 15 min.',
    'dry, board keeps':
      'Ninguém vê uma rega desde as 13:37: a placa não responde, mas devia regar pela sua própria tabela. Se não regar: Bench 2 pode começar a murchar a partir das 14:40 (faltam cerca de 43 min). Vá ver se as bancadas estão molhadas; se não, leve-lhes água à mão. A balde: primeiro Bench 2, 3,5 L por calha a cada 15 min.',
    'return lower':
      'O retorno está 21 % mais fraco do que já foi (33 de 41 L/min). Pode estar a entupir uma entrada ou o filtro; uma bancada sem água não se nota em mais lado nenhum. Tire a bomba da tomada antes de meter as mãos, e volte a ligá-la no fim. Primeiro percorra as bancadas durante uma rega e só olhe: vem água em cada entrada (Bench 1, Bench 2, Bench 3, Bench 4)? Depois veja o filtro e o nível do depósito.',
    'weak return':
      'Rega fraca: voltam 13 L/min, o normal são 40. Tire a bomba da tomada antes de meter as mãos, e volte a ligá-la no fim. Limpe o filtro, depois procure entradas entupidas.',
    'flow silent':
      'O sensor de caudal do retorno não merece confiança desde as 13:47: nunca deu sinal. As regas continuam, mas pode não se dar por uma que falhe. Veja o sensor e o seu cabo.',
    'flow stuck':
      'O sensor de caudal do retorno mostra água desde as 13:56, com a bomba parada. As regas continuam, mas pode não se dar por uma que falhe. Veja se corre mesmo água. Tire a bomba da tomada antes de meter as mãos, e volte a ligá-la no fim. Se não corre, solte ou troque o sensor.',
    clock:
      'O relógio do computador deu um salto, e ninguém sabe qual é a hora certa. Até alguém saber, as bancadas levam as regas das horas mais quentes do plano. Veja a data e a hora do computador, acerte-as, depois dê este alarme por visto.',
    'air old':
      'Sem temperatura do ar de confiança desde as 13:45: a última leitura tem 1320 s. Entretanto o plano rega a mais, não a menos. Veja o termómetro do ar e o seu cabo.',
    'channel dead':
      'Não se chega a ninguém por modem desde as 13:42: "no network". Um alarme pode não chegar a ninguém. Veja o que se passa, e entretanto vá olhando pela estufa.',
    'channels dead':
      'Não se chega a ninguém por modem desde as 13:42: "no network". O mesmo com: e-mail. Um alarme pode não chegar a ninguém. Veja o que se passa, e entretanto vá olhando pela estufa.',
    'not recording':
      'Nada é registado desde as 13:42: "no space left". Registos perdidos: 3. Regas e alarmes continuam, mas um reinício pode esquecê-los. Veja se o disco do computador está cheio ou gasto.',
    'slow disk':
      'O disco está lento: 9 registos esperam, o mais antigo há 2 min. Regas e alarmes continuam, mas um reinício pode esquecê-los. Veja se o disco do computador está cheio ou gasto.',
    'safe mode':
      'O computador trabalha com o mínimo, depois de 3 arranques: "three starts in 10 min". As regas continuam; página e relatórios podem faltar. Veja o que foi mudado por último, desfaça-o, depois reinicie o computador.',
    'past lost':
      'O que se sabia antes deste arranque não se consegue ler. A bomba fica parada 10 min e não mais, pois ninguém sabe se alguém a mandou parar; alarmes de antes podem ficar esquecidos. Com as mãos na água, tire a ficha da bomba da tomada, ou mande-a parar de novo. Depois veja o disco do computador.',
    'clock fast':
      'O relógio da placa anda 7 % mais depressa do que o do computador desde as 13:42. As regas que a placa dá sozinha vêm a horas erradas. Troque a placa quando puder; entretanto o computador guarda a hora.',
    'clock slow':
      'O relógio da placa anda 3 % mais devagar do que o do computador desde as 13:42. As regas que a placa dá sozinha vêm a horas erradas. Troque a placa quando puder; entretanto o computador guarda a hora.',
    'float unmoved':
      'A boia do depósito não se mexe há 30 dias. Uma boia presa parece igual, e não diria que o depósito fica seco. Tire a bomba da tomada, levante e baixe a boia à mão, veja se o estado a segue, e volte a ligar a bomba.',
    'relay chatters':
      'O contacto do relé da bomba bate sem parar desde as 13:55: oito mudanças ou mais num minuto. Os contactos gastam-se e aquecem: perigo de incêndio. Tire a bomba da tomada antes de alguém abrir a caixa, e volte a ligá-la no fim; na rede elétrica só mexe um eletricista habilitado.',
    'line bad':
      'A linha para a placa está má desde as 13:42: uma mensagem em 12 chega estragada. O que chega estragado é deitado fora; se piorar, o computador perde a placa. Veja o cabo da placa: as fichas, o comprimento, a distância ao cabo de rede da bomba. Mude de lugar o da placa, não o da bomba.',
    'line all bad':
      'A linha para a placa está má desde as 13:42: quase tudo chega estragado. O que chega estragado é deitado fora; se piorar, o computador perde a placa. Veja o cabo da placa: as fichas, o comprimento, a distância ao cabo de rede da bomba. Mude de lugar o da placa, não o da bomba.',
    'host hot':
      'O chip do computador está quente de mais desde as 13:42: agora 78 °C. Pode ficar lento, ou parar. Com as mãos secas: dê-lhe sombra e ar, limpe-lhe o pó, e não lhe dê outro trabalho.',
    'host large':
      'O programa do computador ocupa memória de mais desde as 13:42: agora 214 MB. Termina sozinho entre duas regas, de noite se puder esperar, e arranca logo de novo. Por agora nada a fazer; se voltar, comunique-o como defeito.',
    'host large, by hand':
      'O programa do computador ocupa memória de mais desde as 13:42: agora 214 MB. Pode ser cortado a meio de uma rega. Termine-o entre duas regas e arranque-o de novo; depois comunique-o como defeito.',
    'host battery':
      'A bateria do computador está a gastar-se desde as 13:42: agora 18 %, 11,4 V. Quando acabar, o computador deixa de funcionar e de chamar: uma placa com tabela própria continua a regar, uma placa comum não. Com as mãos secas veja a alimentação dele e se há corrente; carregue ou troque a bateria.',
  },
  es: {
    'missed, no mains':
      'Falta la corriente de la red y la bomba está parada: no vuelve agua desde las 13:42. Bench 2 puede empezar a marchitarse a partir de las 14:40 (quedan unos 43 min). Mire el fusible y el diferencial; la red eléctrica es cosa de un electricista autorizado. Si dura, lleve agua a las mesas a mano.',
    'missed, no contact':
      'El relé no cerró: no vuelve agua desde las 13:42. Bench 2 puede empezar a marchitarse a partir de las 14:40 (quedan unos 43 min). Mire primero la placa y su relé; mientras tanto puede enchufar la bomba directamente.',
    'missed, no current':
      'La bomba no consumió corriente: no vuelve agua desde las 13:42. Bench 2 puede empezar a marchitarse a partir de las 14:40 (quedan unos 43 min). ¿Está enchufada la bomba? ¿Está apagado su interruptor? Luego mire el fusible y el diferencial; la red eléctrica es cosa de un electricista autorizado.',
    'missed, tank fell':
      'El depósito bajó, pero no vuelve agua desde las 13:42. Bench 2 puede empezar a marchitarse a partir de las 14:40 (quedan unos 43 min). Desenchufe la bomba antes de meter las manos, y vuelva a enchufarla al final. Busque primero un tubo suelto entre la bomba y las mesas, luego mire el sensor de caudal.',
    'missed, pump ran':
      'La bomba funcionó, pero no vuelve agua desde las 13:42. Bench 2 puede empezar a marchitarse a partir de las 14:40 (quedan unos 43 min). Desenchufe la bomba antes de meter las manos, y vuelva a enchufarla al final. Mire primero el filtro, luego la entrada de la bomba, luego si hay un tubo suelto.',
    'missed, switched on':
      'Se encendió la bomba, pero no vuelve agua desde las 13:42. Bench 2 puede empezar a marchitarse a partir de las 14:40 (quedan unos 43 min). ¿Está enchufada la bomba? Desenchufe la bomba antes de meter las manos, y vuelva a enchufarla al final. Luego mire el filtro y la entrada de la bomba.',
    'mains lost':
      'Falta la corriente de la red desde las 13:55: la bomba está parada. Bench 2 puede empezar a marchitarse a partir de las 14:40 (quedan unos 43 min). Mire el fusible y el diferencial; la red eléctrica es cosa de un electricista autorizado. Si dura, lleve agua a las mesas a mano. Con cubo: primero Bench 2, 3,5 L por canal cada 15 min.',
    'mains doubtful':
      'El contacto de la red dice que falta corriente desde las 13:55, pero la bomba consume corriente: uno de los dos falla. Bench 2 puede empezar a marchitarse a partir de las 14:40 (quedan unos 43 min). Vea si la bomba funciona, luego el contacto.',
    'board silent':
      'La placa no responde desde las 13:56 (/dev/ttyUSB0: cable desenchufado); no se puede dar ningún riego. Bench 2 puede empezar a marchitarse a partir de las 14:40 (quedan unos 43 min). Saque el USB de la placa y vuelva a ponerlo; mire si el temporizador riega.',
    'board silent, keeps':
      'La placa no responde desde las 13:56 (/dev/ttyUSB0: cable desenchufado); debería regar por su propia tabla, sin que nadie lo vea. Si no riega: Bench 2 puede empezar a marchitarse a partir de las 14:40 (quedan unos 43 min). Vea mesas y temporizador; saque el USB de la placa y vuelva a ponerlo.',
    'pump runs on':
      'La bomba se apagó, pero consume corriente desde las 13:55. El depósito puede vaciarse o rebosar. Desenchufe la bomba, luego mire el relé.',
    'tank low':
      'El depósito está bajo desde las 13:52; solo se dan riegos mínimos. Bench 2 puede empezar a marchitarse a partir de las 14:40 (quedan unos 43 min). Mire dentro del depósito. Desenchufe la bomba antes de meter las manos, y vuelva a enchufarla al final. Llénelo, o suelte la boya a mano si está trabada.',
    'float suspect':
      'La boya del depósito marca bajo desde las 13:27, pero vuelve agua; siguen riegos acortados. Bench 2 puede empezar a marchitarse a partir de las 14:40 (quedan unos 43 min). Mire dentro del depósito. Desenchufe la bomba antes de meter las manos, y vuelva a enchufarla al final. Pruebe la boya a mano.',
    'tank falls':
      'El depósito baja al menos 48 L por hora más de lo que las plantas pueden beber. A este ritmo deja de alcanzar para un riego entero en unos 3 h 11 min (17:08). No se acerque a enchufes mojados. Busque agua en el suelo, luego mire la salida de los canales y el llenado. Si todo está seco: ¿tiene el archivo de la finca todas las mesas plantadas?',
    'tank falls, too low':
      'El depósito baja al menos 60 L por hora más de lo que las plantas pueden beber. Puede que ya no alcance para un riego entero. No se acerque a enchufes mojados. Busque agua en el suelo, luego mire la salida de los canales y el llenado. Si todo está seco: ¿tiene el archivo de la finca todas las mesas plantadas?',
    'tank falls, not soon':
      'El depósito baja al menos 16 L por hora más de lo que las plantas pueden beber. A este ritmo alcanza para regar en las próximas 20 horas. No se acerque a enchufes mojados. Busque agua en el suelo, luego mire la salida de los canales y el llenado. Si todo está seco: ¿tiene el archivo de la finca todas las mesas plantadas?',
    'tank full':
      'El depósito está lleno hasta el borde y sigue así: 598 de 600 L. Puede rebosar, y la solución se hace más débil. No se acerque a enchufes mojados. Cierre el llenado a mano, luego suelte, repare o baje la válvula.',
    'too strong':
      'La solución está demasiado fuerte: 2,60 mS/cm a 25 °C, lo habitual es 1,60. Las raíces toman el agua cada vez con más trabajo, y los bordes de las hojas pueden quemarse. Mida primero con otro medidor: una sonda puede mentir. Si es así, saque unos 195 L y ponga otro tanto de agua sola, medida antes también, poco a poco, y mida de nuevo tras un riego cada vez. Use guantes y gafas de protección; nunca mezcle concentrados.',
    'too strong, room':
      'La solución está demasiado fuerte: 2,60 mS/cm a 25 °C, lo habitual es 1,60. Las raíces toman el agua cada vez con más trabajo, y los bordes de las hojas pueden quemarse. Mida primero con otro medidor: una sonda puede mentir. Si es así, añada unos 64 L de agua sola, medida antes también, poco a poco, y mida de nuevo tras un riego cada vez. Use guantes y gafas de protección; nunca mezcle concentrados.',
    'too strong, salty top-up':
      'La solución está demasiado fuerte: 2,60 mS/cm a 25 °C, lo habitual es 1,60. Las raíces toman el agua cada vez con más trabajo, y los bordes de las hojas pueden quemarse. Mida primero con otro medidor: una sonda puede mentir. Si es así, el agua del llenado no puede diluirla, pues es tan fuerte como debe ser ella: use agua más débil, como la de lluvia. Use guantes y gafas de protección; nunca mezcle concentrados.',
    'too strong, back':
      'La solución estuvo fuera de su margen y marca de nuevo 1,70 mS/cm a 25 °C, lo habitual es 1,60. Las raíces toman el agua cada vez con más trabajo, y los bordes de las hojas pueden quemarse. Mida primero con otro medidor: una sonda puede mentir. Si es así, no añada nada ahora, y mida otra vez tras el próximo riego. Use guantes y gafas de protección; nunca mezcle concentrados.',
    'too weak, silent':
      'La solución está demasiado débil: 0,90 mS/cm a 25 °C, lo habitual es 1,60. La sonda no da una lectura buena desde las 13:42. Las plantas viven, pero crecen despacio y pálidas. Mida primero con otro medidor: una sonda puede mentir. Si es así, añada solución madre en dosis pequeñas, y mida de nuevo tras un riego cada vez. Use guantes y gafas de protección; nunca mezcle concentrados.',
    'leak and overflow':
      'Agua donde no debería haberla: sensor de fugas y boya de rebose mojados. Los riegos se acortan o se paran hasta que se seque. No se acerque a enchufes mojados. Busque un retorno atascado o un tubo suelto.',
    hold: 'Sin riego desde las 13:37: parada pedida por Ana. Bench 2 puede empezar a marchitarse a partir de las 14:40 (quedan unos 43 min). Termine la parada cuando las manos estén fuera del agua.',
    'dry, float low':
      'Sin riego desde las 13:37: la boya del depósito marca bajo. Bench 2 puede empezar a marchitarse a partir de las 14:40 (quedan unos 43 min). Lleve agua a las mesas a mano, luego repare la causa. Con cubo: primero Bench 2, 3,5 L por canal cada 15 min.',
    'dry, board keeps':
      'Nadie ve un riego desde las 13:37: la placa no responde, aunque debería regar por su propia tabla. Si no riega: Bench 2 puede empezar a marchitarse a partir de las 14:40 (quedan unos 43 min). Vaya a ver si las mesas están mojadas; si no, lléveles agua a mano. Con cubo: primero Bench 2, 3,5 L por canal cada 15 min.',
    'return lower':
      'El retorno es un 21 % menor de lo que era (33 de 41 L/min). Puede estar atascándose una entrada o el filtro; una mesa sin agua no se nota en ningún otro sitio. Desenchufe la bomba antes de meter las manos, y vuelva a enchufarla al final. Primero recorra las mesas durante un riego y solo mire: ¿viene agua en cada entrada (Bench 1, Bench 2, Bench 3, Bench 4)? Luego mire el filtro y el nivel del depósito.',
    'weak return':
      'Riego flojo: vuelven 13 L/min, lo normal son 40. Desenchufe la bomba antes de meter las manos, y vuelva a enchufarla al final. Limpie el filtro, luego busque entradas atascadas.',
    'flow silent':
      'El sensor de caudal del retorno no merece confianza desde las 13:47: nunca ha dado señal. Los riegos siguen, pero puede fallar uno sin que se note. Mire el sensor y su cable.',
    'flow stuck':
      'El sensor de caudal del retorno muestra agua desde las 13:56, con la bomba parada. Los riegos siguen, pero puede fallar uno sin que se note. Vea si de verdad corre agua. Desenchufe la bomba antes de meter las manos, y vuelva a enchufarla al final. Si no corre, suelte o cambie el sensor.',
    clock:
      'El reloj del ordenador ha dado un salto, y nadie sabe qué hora es la buena. Hasta que alguien lo sepa, las mesas reciben los riegos de las horas más calurosas del plan. Mire la fecha y la hora del ordenador, corríjalas, luego dé esta alarma por vista.',
    'air old':
      'Sin temperatura del aire fiable desde las 13:45: la última lectura tiene 1320 s. Mientras tanto el plan riega de más, no de menos. Mire el termómetro del aire y su cable.',
    'channel dead':
      'No se llega a nadie por módem desde las 13:42: "no network". Una alarma puede no llegar a nadie. Mire qué pasa, y entretanto vigile el invernadero.',
    'channels dead':
      'No se llega a nadie por módem desde las 13:42: "no network". Lo mismo con: correo electrónico. Una alarma puede no llegar a nadie. Mire qué pasa, y entretanto vigile el invernadero.',
    'not recording':
      'No se registra nada desde las 13:42: "no space left". Registros perdidos: 3. Riegos y alarmas siguen, pero un reinicio puede olvidarlos. Mire si el disco del ordenador está lleno o gastado.',
    'slow disk':
      'El disco va lento: 9 registros esperan, el más antiguo desde hace 2 min. Riegos y alarmas siguen, pero un reinicio puede olvidarlos. Mire si el disco del ordenador está lleno o gastado.',
    'safe mode':
      'El ordenador funciona con lo mínimo, tras 3 arranques: "three starts in 10 min". Los riegos siguen; página e informes pueden faltar. Mire qué se cambió por último, deshágalo, luego reinicie el ordenador.',
    'past lost':
      'Lo que se sabía antes de este arranque no se puede leer. La bomba queda parada 10 min y no más, pues nadie sabe si alguien la mandó parar; las alarmas de antes pueden quedar olvidadas. Con las manos en el agua, desenchufe la bomba, o mándela parar otra vez. Luego mire el disco del ordenador.',
    'clock fast':
      'El reloj de la placa va 7 % más deprisa que el del ordenador desde las 13:42. Los riegos que da la placa sola llegan a horas equivocadas. Cambie la placa cuando pueda; entretanto el ordenador lleva la hora.',
    'clock slow':
      'El reloj de la placa va 3 % más despacio que el del ordenador desde las 13:42. Los riegos que da la placa sola llegan a horas equivocadas. Cambie la placa cuando pueda; entretanto el ordenador lleva la hora.',
    'float unmoved':
      'La boya del depósito no se mueve desde hace 30 días. Una boya atascada parece igual, y no diría que el depósito se queda seco. Desenchufe la bomba, suba y baje la boya con la mano, mire si el estado la sigue, y vuelva a enchufar la bomba.',
    'relay chatters':
      'El contacto del relé de la bomba castañetea desde las 13:55: ocho cambios o más en un minuto. Los contactos se gastan y se calientan: peligro de incendio. Desenchufe la bomba antes de que nadie abra la caja, y vuelva a enchufarla al final; la red eléctrica es cosa de un electricista autorizado.',
    'line bad':
      'La línea con la placa va mal desde las 13:42: un mensaje de cada 12 llega estropeado. Lo que llega estropeado se descarta; si empeora, el ordenador pierde la placa. Mire el cable de la placa: las clavijas, el largo, la distancia al cable de red de la bomba. Mueva el de la placa, no el de la bomba.',
    'line all bad':
      'La línea con la placa va mal desde las 13:42: casi todo llega estropeado. Lo que llega estropeado se descarta; si empeora, el ordenador pierde la placa. Mire el cable de la placa: las clavijas, el largo, la distancia al cable de red de la bomba. Mueva el de la placa, no el de la bomba.',
    'host hot':
      'El chip del ordenador está demasiado caliente desde las 13:42: ahora 78 °C. Puede ir lento, o pararse. Con las manos secas: dele sombra y aire, límpielo de polvo, y no le dé otro trabajo.',
    'host large':
      'El programa del ordenador ocupa demasiada memoria desde las 13:42: ahora 214 MB. Termina solo entre dos riegos, de noche si puede esperar, y arranca enseguida de nuevo. Por ahora no hay que hacer nada; si vuelve, comuníquelo como defecto.',
    'host large, by hand':
      'El programa del ordenador ocupa demasiada memoria desde las 13:42: ahora 214 MB. Puede quedar cortado en mitad de un riego. Termínelo entre dos riegos y arránquelo de nuevo; luego comuníquelo como defecto.',
    'host battery':
      'La batería del ordenador se está gastando desde las 13:42: ahora 18 %, 11,4 V. Cuando se agote, el ordenador se apaga y no avisa: una placa con tabla propia sigue regando, una placa corriente no. Con las manos secas mire su alimentación y si hay corriente; cargue o cambie la batería.',
  },
  fr: {
    'missed, no mains':
      "Le secteur est coupé et la pompe est à l'arrêt : l'eau ne revient plus depuis 13:42. Bench 2 peut commencer à flétrir à partir de 14:40 (il reste environ 43 min). Voyez le fusible et le différentiel ; le secteur est l'affaire d'un électricien habilité. Si cela dure, portez de l'eau aux tables à la main.",
    'missed, no contact':
      "Le relais ne s'est pas fermé : l'eau ne revient plus depuis 13:42. Bench 2 peut commencer à flétrir à partir de 14:40 (il reste environ 43 min). Voyez d'abord la carte et son relais ; en attendant, la pompe peut être branchée directement à sa prise.",
    'missed, no current':
      "La pompe n'a pas consommé de courant : l'eau ne revient plus depuis 13:42. Bench 2 peut commencer à flétrir à partir de 14:40 (il reste environ 43 min). La pompe est-elle branchée ? Son interrupteur est-il coupé ? Voyez ensuite le fusible et le différentiel ; le secteur est l'affaire d'un électricien habilité.",
    'missed, tank fell':
      "La cuve a baissé, mais l'eau ne revient plus depuis 13:42. Bench 2 peut commencer à flétrir à partir de 14:40 (il reste environ 43 min). Débranchez la pompe avant de mettre les mains dans l'eau, et rebranchez-la ensuite. Cherchez d'abord un tuyau défait entre la pompe et les tables, puis voyez le capteur de débit.",
    'missed, pump ran':
      "La pompe a tourné, mais l'eau ne revient plus depuis 13:42. Bench 2 peut commencer à flétrir à partir de 14:40 (il reste environ 43 min). Débranchez la pompe avant de mettre les mains dans l'eau, et rebranchez-la ensuite. Voyez d'abord le filtre, puis l'entrée de la pompe, puis si un tuyau est défait.",
    'missed, switched on':
      "La pompe a été mise en marche, mais l'eau ne revient plus depuis 13:42. Bench 2 peut commencer à flétrir à partir de 14:40 (il reste environ 43 min). La pompe est-elle branchée ? Débranchez la pompe avant de mettre les mains dans l'eau, et rebranchez-la ensuite. Voyez ensuite le filtre et l'entrée de la pompe.",
    'mains lost':
      "Le secteur est coupé depuis 13:55 : la pompe est à l'arrêt. Bench 2 peut commencer à flétrir à partir de 14:40 (il reste environ 43 min). Voyez le fusible et le différentiel ; le secteur est l'affaire d'un électricien habilité. Si cela dure, portez de l'eau aux tables à la main. Au seau : d'abord Bench 2, 3,5 L par gouttière toutes les 15 min.",
    'mains doubtful':
      "Le contact du secteur indique une coupure depuis 13:55, mais la pompe consomme du courant : l'un des deux est faux. Bench 2 peut commencer à flétrir à partir de 14:40 (il reste environ 43 min). Voyez si la pompe tourne, puis le contact.",
    'board silent':
      'La carte ne répond plus depuis 13:56 (/dev/ttyUSB0 : câble débranché) ; aucun arrosage ne peut être donné. Bench 2 peut commencer à flétrir à partir de 14:40 (il reste environ 43 min). Retirez la fiche USB de la carte et remettez-la ; voyez si la minuterie arrose.',
    'board silent, keeps':
      'La carte ne répond plus depuis 13:56 (/dev/ttyUSB0 : câble débranché) ; elle devrait arroser selon son propre programme, sans être vue. Sinon : Bench 2 peut commencer à flétrir à partir de 14:40 (il reste environ 43 min). Voyez tables et minuterie ; retirez la fiche USB de la carte et remettez-la.',
    'pump runs on':
      'La pompe a été arrêtée, mais elle consomme du courant depuis 13:55. La cuve peut se vider ou déborder. Débranchez la pompe, puis voyez le relais.',
    'tank low':
      "La cuve est basse depuis 13:52 ; seuls des arrosages minimes sont donnés. Bench 2 peut commencer à flétrir à partir de 14:40 (il reste environ 43 min). Regardez dans la cuve. Débranchez la pompe avant de mettre les mains dans l'eau, et rebranchez-la ensuite. Remplissez-la, ou libérez le flotteur à la main s'il est coincé.",
    'float suspect':
      "Le flotteur de la cuve indique bas depuis 13:27, mais l'eau revient ; des arrosages raccourcis continuent. Bench 2 peut commencer à flétrir à partir de 14:40 (il reste environ 43 min). Regardez dans la cuve. Débranchez la pompe avant de mettre les mains dans l'eau, et rebranchez-la ensuite. Essayez le flotteur à la main.",
    'tank falls':
      "La cuve baisse d'au moins 48 L par heure de plus que ce que les plantes peuvent boire. À ce rythme elle ne suffit plus pour un arrosage entier dans environ 3 h 11 min (17:08). N'approchez pas des prises mouillées. Cherchez de l'eau au sol, puis voyez la sortie des gouttières, puis le remplissage. Si tout est sec : le fichier de l'exploitation a-t-il toutes les tables plantées ?",
    'tank falls, too low':
      "La cuve baisse d'au moins 60 L par heure de plus que ce que les plantes peuvent boire. Elle ne suffit peut-être déjà plus pour un arrosage entier. N'approchez pas des prises mouillées. Cherchez de l'eau au sol, puis voyez la sortie des gouttières, puis le remplissage. Si tout est sec : le fichier de l'exploitation a-t-il toutes les tables plantées ?",
    'tank falls, not soon':
      "La cuve baisse d'au moins 16 L par heure de plus que ce que les plantes peuvent boire. À ce rythme elle suffit pour arroser pendant les 20 prochaines heures. N'approchez pas des prises mouillées. Cherchez de l'eau au sol, puis voyez la sortie des gouttières, puis le remplissage. Si tout est sec : le fichier de l'exploitation a-t-il toutes les tables plantées ?",
    'tank full':
      "La cuve est pleine à ras bord et le reste : 598 L sur 600. Elle peut déborder, et la solution s'affaiblit. N'approchez pas des prises mouillées. Fermez le remplissage à la main, puis libérez, réparez ou abaissez sa vanne.",
    'too strong':
      "La solution est trop forte : 2,60 mS/cm à 25 °C, d'habitude 1,60. Les racines prennent l'eau de plus en plus mal, et le bord des feuilles peut brûler. Mesurez d'abord avec un autre appareil : une sonde peut mentir. Si c'est vrai, retirez environ 195 L et mettez-y autant d'eau simple, mesurée d'abord elle aussi, par étapes, et mesurez de nouveau après un arrosage à chaque fois. Portez gants et lunettes ; ne mélangez jamais des concentrés.",
    'too strong, room':
      "La solution est trop forte : 2,60 mS/cm à 25 °C, d'habitude 1,60. Les racines prennent l'eau de plus en plus mal, et le bord des feuilles peut brûler. Mesurez d'abord avec un autre appareil : une sonde peut mentir. Si c'est vrai, ajoutez environ 64 L d'eau simple, mesurée d'abord elle aussi, par étapes, et mesurez de nouveau après un arrosage à chaque fois. Portez gants et lunettes ; ne mélangez jamais des concentrés.",
    'too strong, salty top-up':
      "La solution est trop forte : 2,60 mS/cm à 25 °C, d'habitude 1,60. Les racines prennent l'eau de plus en plus mal, et le bord des feuilles peut brûler. Mesurez d'abord avec un autre appareil : une sonde peut mentir. Si c'est vrai, l'eau du remplissage ne peut pas la diluer, car elle est aussi forte que la solution devrait être : prenez une eau plus faible, comme celle de pluie. Portez gants et lunettes ; ne mélangez jamais des concentrés.",
    'too strong, back':
      "La solution était hors de ses bornes et redonne 1,70 mS/cm à 25 °C, d'habitude 1,60. Les racines prennent l'eau de plus en plus mal, et le bord des feuilles peut brûler. Mesurez d'abord avec un autre appareil : une sonde peut mentir. Si c'est vrai, n'ajoutez rien pour l'instant, et mesurez encore après le prochain arrosage. Portez gants et lunettes ; ne mélangez jamais des concentrés.",
    'too weak, silent':
      "La solution est trop faible : 0,90 mS/cm à 25 °C, d'habitude 1,60. La sonde ne donne plus de bonne mesure depuis 13:42. Les plantes vivent, mais poussent lentement et pâles. Mesurez d'abord avec un autre appareil : une sonde peut mentir. Si c'est vrai, ajoutez de la solution mère par petites doses, et mesurez de nouveau après un arrosage à chaque fois. Portez gants et lunettes ; ne mélangez jamais des concentrés.",
    'leak and overflow':
      "De l'eau là où il n'en faut pas : détecteur de fuite et trop-plein mouillés. Les arrosages sont raccourcis ou arrêtés jusqu'à ce que ce soit sec. N'approchez pas des prises mouillées. Cherchez un retour bouché ou un tuyau défait.",
    hold: "Pas d'arrosage depuis 13:37 : arrêt demandé par Ana. Bench 2 peut commencer à flétrir à partir de 14:40 (il reste environ 43 min). Mettez fin à l'arrêt quand les mains sont hors de l'eau.",
    'dry, float low':
      "Pas d'arrosage depuis 13:37 : le flotteur de la cuve indique bas. Bench 2 peut commencer à flétrir à partir de 14:40 (il reste environ 43 min). Portez de l'eau aux tables à la main, puis réparez la cause. Au seau : d'abord Bench 2, 3,5 L par gouttière toutes les 15 min.",
    'dry, board keeps':
      "Personne ne voit d'arrosage depuis 13:37 : la carte ne répond pas, mais elle devrait arroser selon son propre programme. Sinon : Bench 2 peut commencer à flétrir à partir de 14:40 (il reste environ 43 min). Allez voir si les tables sont mouillées ; sinon, portez-y de l'eau à la main. Au seau : d'abord Bench 2, 3,5 L par gouttière toutes les 15 min.",
    'return lower':
      "Le retour est plus faible de 21 % qu'auparavant (33 sur 41 L/min). Une entrée ou le filtre se bouche peut-être ; une table sans eau ne se voit nulle part ailleurs. Débranchez la pompe avant de mettre les mains dans l'eau, et rebranchez-la ensuite. Faites d'abord le tour des tables pendant un arrosage, des yeux seulement : l'eau vient-elle à chaque entrée (Bench 1, Bench 2, Bench 3, Bench 4) ? Puis voyez le filtre et le niveau de la cuve.",
    'weak return':
      "Arrosage faible : il revient 13 L/min, d'habitude 40. Débranchez la pompe avant de mettre les mains dans l'eau, et rebranchez-la ensuite. Nettoyez le filtre, puis cherchez des entrées bouchées.",
    'flow silent':
      "Le capteur de débit du retour n'est plus fiable depuis 13:47 : il n'a jamais donné signe. Les arrosages continuent, mais un arrosage manqué peut passer inaperçu. Voyez le capteur et son câble.",
    'flow stuck':
      "Le capteur de débit du retour montre de l'eau depuis 13:56, pompe à l'arrêt. Les arrosages continuent, mais un arrosage manqué peut passer inaperçu. Voyez si l'eau coule vraiment. Débranchez la pompe avant de mettre les mains dans l'eau, et rebranchez-la ensuite. Si rien ne coule, libérez ou changez le capteur.",
    clock:
      "L'horloge de l'ordinateur a sauté, et personne ne sait quelle heure est juste. D'ici là, les tables reçoivent les arrosages des heures les plus chaudes du plan. Voyez la date et l'heure de l'ordinateur, corrigez-les, puis confirmez cette alarme.",
    'air old':
      "Pas de température de l'air fiable depuis 13:45 : la dernière mesure date de 1320 s. En attendant, le plan arrose plutôt trop que trop peu. Voyez le thermomètre de l'air et son câble.",
    'channel dead':
      "Personne n'est joignable par modem depuis 13:42 : « no network ». Une alarme peut n'atteindre personne. Voyez ce qu'il y a, et surveillez la serre en attendant.",
    'channels dead':
      "Personne n'est joignable par modem depuis 13:42 : « no network ». De même : e-mail. Une alarme peut n'atteindre personne. Voyez ce qu'il y a, et surveillez la serre en attendant.",
    'not recording':
      "Rien n'est enregistré depuis 13:42 : « no space left ». Lignes perdues : 3. Arrosages et alarmes continuent, mais un redémarrage peut les oublier. Voyez si le disque de l'ordinateur est plein ou usé.",
    'slow disk':
      "Le disque est lent : 9 lignes attendent, la plus ancienne depuis 2 min. Arrosages et alarmes continuent, mais un redémarrage peut les oublier. Voyez si le disque de l'ordinateur est plein ou usé.",
    'safe mode':
      "L'ordinateur tourne au minimum, après 3 démarrages : « three starts in 10 min ». Les arrosages continuent ; page et rapports peuvent manquer. Voyez ce qui a été changé en dernier, annulez-le, puis redémarrez l'ordinateur.",
    'past lost':
      "Ce qui était connu avant ce démarrage ne peut pas être lu. La pompe reste arrêtée 10 min et pas plus, car personne ne sait si quelqu'un l'a arrêtée ; des alarmes d'avant peuvent être oubliées. Les mains dans l'eau, débranchez la pompe, ou arrêtez-la de nouveau. Voyez ensuite le disque de l'ordinateur.",
    'clock fast':
      "L'horloge de la carte va 7 % plus vite que celle de l'ordinateur depuis 13:42. Les arrosages que la carte donne seule viennent aux mauvaises heures. Changez la carte quand vous pourrez ; en attendant, l'ordinateur garde l'heure.",
    'clock slow':
      "L'horloge de la carte va 3 % plus lentement que celle de l'ordinateur depuis 13:42. Les arrosages que la carte donne seule viennent aux mauvaises heures. Changez la carte quand vous pourrez ; en attendant, l'ordinateur garde l'heure.",
    'float unmoved':
      "Le flotteur de la cuve n'a pas bougé depuis 30 jours. Un flotteur coincé paraît pareil, et ne dirait pas que la cuve se vide. Débranchez la pompe, levez et baissez le flotteur à la main, voyez si l'état le suit, et rebranchez-la.",
    'relay chatters':
      "Le contact du relais de la pompe claque sans cesse depuis 13:55 : huit changements ou plus en une minute. Ses contacts s'usent et chauffent : risque d'incendie. Débranchez la pompe avant que quiconque ouvre le boîtier, et rebranchez-la à la fin ; le secteur est l'affaire d'un électricien habilité.",
    'line bad':
      "La ligne vers la carte est mauvaise depuis 13:42 : un message sur 12 arrive abîmé. Ce qui arrive abîmé est écarté ; si cela empire, l'ordinateur perd la carte. Voyez le câble de la carte : ses fiches, sa longueur, sa distance au câble secteur de la pompe. Déplacez celui de la carte, pas celui de la pompe.",
    'line all bad':
      "La ligne vers la carte est mauvaise depuis 13:42 : presque tout arrive abîmé. Ce qui arrive abîmé est écarté ; si cela empire, l'ordinateur perd la carte. Voyez le câble de la carte : ses fiches, sa longueur, sa distance au câble secteur de la pompe. Déplacez celui de la carte, pas celui de la pompe.",
    'host hot':
      "La puce de l'ordinateur est trop chaude depuis 13:42 : maintenant 78 °C. L'ordinateur peut ralentir, ou s'arrêter. Mains sèches : donnez-lui de l'ombre et de l'air, dépoussiérez-le, et ne lui donnez pas d'autre travail.",
    'host large':
      "Le programme de l'ordinateur occupe trop de mémoire depuis 13:42 : maintenant 214 Mo. Il s'arrête de lui-même entre deux arrosages, la nuit s'il peut attendre, et redémarre aussitôt. Rien à faire pour le moment ; si cela revient, signalez-le comme défaut.",
    'host large, by hand':
      "Le programme de l'ordinateur occupe trop de mémoire depuis 13:42 : maintenant 214 Mo. Il peut être coupé au milieu d'un arrosage. Arrêtez-le entre deux arrosages et redémarrez-le ; puis signalez-le comme défaut.",
    'host battery':
      "La batterie de l'ordinateur se vide depuis 13:42 : maintenant 18 %, 11,4 V. Vide, l'ordinateur s'arrête et n'appelle plus : une carte avec son propre programme continue d'arroser, une carte ordinaire non. Mains sèches : voyez son alimentation et s'il y a du courant ; rechargez ou changez la batterie.",
  },
};
