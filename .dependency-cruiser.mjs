/**
 * The house rules of who may import whom. The order of the stages stands in one array; every rule about it
 * is made from that array. `npm run rules` holds them.
 */
const flow = [
  'units',
  'time',
  'physics',
  'farm',
  'ports',
  'sense',
  'estimate',
  'plan',
  'command',
  'verify',
  'alarm',
  'delivery',
  'journal',
];

/** What the simulated world may see of the core: never a stage, whose notes the judge must not read. */
const seenByPlantAndWeather = ['units', 'time', 'physics'];
const seenByRest = [...seenByPlantAndWeather, 'farm', 'ports', 'journal'];
/** Delivery stands behind the controller: a run carries its calls, and the judge sees only what reached people. */
const seenByRuns = [...seenByRest, 'delivery'];
const corePackages = 'node_modules/(zod|luxon)/';

const folder = (names) => `^src/(${names.join('|')})/`;

const stageOrder = flow.slice(0, -1).map((stage, place) => ({
  name: `${stage}-sees-no-later-stage`,
  comment: 'Imports follow the flow, in one direction only.',
  severity: 'error',
  from: { path: `^src/${stage}/` },
  to: { path: [folder(flow.slice(place + 1)), '^src/controller(/|\\.ts$)'] },
}));

export default {
  forbidden: [
    ...stageOrder,
    {
      name: 'core-is-pure',
      comment: 'src/ reaches no shell, no simulated world, no Node module and only two packages.',
      severity: 'error',
      from: { path: '^src/' },
      to: { pathNot: ['^src/', corePackages] },
    },
    {
      name: 'plant-and-weather-know-no-farm',
      severity: 'error',
      from: { path: '^sim/(plant|weather)/' },
      to: { pathNot: ['^sim/(plant|weather)/', folder(seenByPlantAndWeather), corePackages] },
    },
    {
      name: 'sim-sees-no-stage',
      comment:
        'The judge must not read the defendant’s notes; only sim/run and sim/campaign may call the controller as a whole.',
      severity: 'error',
      from: { path: '^sim/', pathNot: '^sim/(run|campaign|plant|weather)/' },
      to: { path: '^src/', pathNot: folder(seenByRest) },
    },
    {
      name: 'run-calls-the-controller-as-a-whole',
      severity: 'error',
      from: { path: '^sim/(run|campaign)/' },
      to: { path: '^src/', pathNot: [folder(seenByRuns), '^src/controller\\.ts$'] },
    },
    {
      name: 'one-file-joins-host-and-sim',
      comment: 'And the command line of the campaign, which is of the simulated world as a whole.',
      severity: 'error',
      from: { path: '^firmware-host/', pathNot: '^firmware-host/(simulated-shed\\.ts$|campaign/)' },
      to: { path: '^sim/' },
    },
    {
      name: 'threads-have-no-serial-port',
      comment:
        'The driver ends the process when a port of a worker is heard: firmware-host/devices/far-line.ts.',
      severity: 'error',
      from: {
        path: '^firmware-host/(herald/herald-worker|storage/journal/journal-worker|work/worker)\\.ts$',
      },
      to: { path: '(^firmware-host/devices/serial-lines\\.ts$|node_modules/serialport/)', reachable: true },
    },
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'product-sees-no-test',
      severity: 'error',
      from: { path: '^(src|sim|firmware-host)/' },
      to: { path: '^tests/', dependencyTypesNot: ['npm'] },
    },
    {
      name: 'no-development-package-in-product',
      severity: 'error',
      from: { path: '^(src|sim|firmware-host)/' },
      to: { dependencyTypes: ['npm-dev', 'npm-no-pkg', 'unknown', 'undetermined'] },
    },
    { name: 'no-unresolved', severity: 'error', from: {}, to: { couldNotResolve: true } },
  ],
  options: {
    tsConfig: { fileName: 'tsconfig.json' },
    tsPreCompilationDeps: true,
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: {
      extensions: ['.ts', '.mjs', '.js', '.json'],
      exportsFields: ['exports'],
      conditionNames: ['import', 'types', 'node', 'default'],
    },
  },
};
