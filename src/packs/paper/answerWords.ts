/** Words of answers and challenges on paper: known ones, short forms, units, and those that ask for a value. */

const words = (text: string): ReadonlySet<string> => new Set(text.split(/\s+/).filter((word) => word !== ''))

/** Besides states, confirmations and numbers: words that are said as an answer as they stand. */
export const ANSWER_WORDS = words(`
  briefed received obtained reviewed stowed aboard board tested adjusted held visible sufficient within limits limit
  range arc band position detent takeoff landing taxi climb cruise descent approach ground flight start idle
  both all each left right center centre front rear main mains inner outer forward aft upper lower captain copilot
  light lights greens signs doors door slides pumps pump brake brakes
  sight use hand place signed computed loaded entered programmed in out for of to as and or the is are not no
  full free correct clear secure level true test pressure temperature quantity oil fuel
  standby mode heading track fully three two one four five six completed cleared stable
  installed aligned tuned identified selected heated cold warm local filed planned crosschecked rechecked noted
  discussed recorded stowed pulled pushed pins pin covers cover passengers crew cabin seats belts harness harnesses
  wheel wheels nose up down transmit below above line items rotating stopped running seated standard briefed flags`)

/** Answers that stand for a value that is said: what is said is not on the paper. */
export const ASKS_FOR_VALUE = words(
  'state stated announce announced read value values note note record call report say said quantity figure figures xx xxx xxxx as-read',
)

/** Short forms that can mean one thing only. */
export const SHORT_FORMS: ReadonlyMap<string, string> = new Map([
  ['chkd', 'checked'],
  ["chk'd", 'checked'],
  ["ck'd", 'checked'],
  ['chk', 'check'],
  ['clsd', 'closed'],
  ['opn', 'open'],
  ['rcvd', 'received'],
  ["rec'd", 'received'],
  ['recd', 'received'],
  ['conf', 'confirmed'],
  ['confd', 'confirmed'],
  ["x'chk", 'crosschecked'],
  ['xchk', 'crosschecked'],
  ['xchkd', 'crosschecked'],
  ['compl', 'complete'],
  ['norm', 'normal'],
  ['stby', 'standby'],
  ['rwy', 'runway'],
  ['xpdr', 'transponder'],
  ['xpndr', 'transponder'],
  ['hdg', 'heading'],
  ['alti', 'altimeter'],
  ['batt', 'battery'],
  ['flt', 'flight'],
  ['eng', 'engine'],
  ['engs', 'engines'],
  ['hyd', 'hydraulic'],
  ['elec', 'electric'],
  ['qty', 'quantity'],
  ['temp', 'temperature'],
  ['ign', 'ignition'],
  ['lts', 'lights'],
  ['lt', 'light'],
  ['pwr', 'power'],
  ['sw', 'switch'],
  ['t/o', 'takeoff'],
  ['a/p', 'autopilot'],
  ['a/t', 'autothrottle'],
  ['a/c', 'aircraft'],
  ['wt', 'weight'],
])

/** Short forms that may mean several things, or how they are said is not known. */
export const UNCLEAR = words(
  'alt ext gen elev press sel inst instr ctl comm comms nav ail rud recirc xfer xfeed prop props emer pax brk brks prkg mags aux',
)

/** Said letter by letter. */
export const SPELLED = words(
  'apu gpu qnh qfe vhf gps ils vor dme adf fms fmc fmgc mcp fcu efb egt itt cht rpm mfd pfd cg zfw tow oat usb pc atc',
)
/** Speeds by their names, each as it is said. */
export const SPEED_NAMES: ReadonlyMap<string, string> = new Map([
  ...[
    'vr',
    'vs',
    'vso',
    'vx',
    'vy',
    'vfe',
    'vne',
    'vno',
    'vle',
    'vlo',
    'vmo',
    'vmc',
    'vmca',
    'vse',
    'vxse',
    'vyse',
    'vfto',
  ].map((name): [string, string] => [name, [...name.toUpperCase()].join(' ')]),
  ['v1', 'V one'],
  ['v2', 'V two'],
  ['vref', 'V ref'],
  ['vapp', 'V app'],
])

/** Names of letters and numbers, each as it is said. */
export const NAMES_SAID: ReadonlyMap<string, string> = new Map([
  ...SPEED_NAMES,
  ['n1', 'N one'],
  ['n2', 'N two'],
  ['n3', 'N three'],
  ['ng', 'N G'],
  ['np', 'N P'],
  ['nh', 'N H'],
  ['nl', 'N L'],
])

/** Names of capitals that are said as a word. */
export const SAID_AS_WORDS = words('atis tcas fadec ecam eicas pitot')

/** Words before a number that belong to a name: "engine 2". */
export const NUMBERED = words(
  'tank tanks engine engines eng number no system pack bus generator gen com nav vhf side position stage altimeter mag pump box',
)

export interface WrittenUnit {
  /** As it is said behind a value. */
  readonly said: string
  readonly dimension:
    | 'speed'
    | 'kg'
    | 'lb'
    | 'trim'
    | 'hPa'
    | 'inHg'
    | 'ft'
    | 'celsius'
    | 'fahrenheit'
    | 'percent'
    | 'usgal'
    | 'l'
    | 'frequency'
    | 'mach'
    | 'degrees'
    | 'mac'
    | 'time'
    | 'count'
    | 'level'
    | 'inches'
    | 'torque'
    | 'newtonMetres'
    | 'poundsAnHour'
    | 'kilogramsAnHour'
    | 'litresAnHour'
    | 'gallonsAnHour'
    | 'psi'
    | 'bar'
    | 'volts'
    | 'amps'
    | 'rpm'
    | 'minutes'
    | 'seconds'
}

const unit = (said: string, dimension: WrittenUnit['dimension'], ...written: string[]) =>
  written.map((one): [string, WrittenUnit] => [one, { said, dimension }])

/** How units are written on paper. */
export const UNITS_WRITTEN: ReadonlyMap<string, WrittenUnit> = new Map([
  ...unit('knots', 'speed', 'kt', 'kts', 'knot', 'knots', 'kias', 'ias'),
  ...unit('kilograms', 'kg', 'kg', 'kgs', 'kilogram', 'kilograms', 'kilos'),
  ...unit('pounds', 'lb', 'lb', 'lbs', 'pound', 'pounds'),
  ...unit('units', 'trim', 'unit', 'units'),
  ...unit('hectopascals', 'hPa', 'hpa', 'mb', 'mbar', 'millibars', 'hectopascals'),
  ...unit('inches', 'inHg', 'inhg', 'in.hg', '"hg', 'hg'),
  ...unit('inches', 'inches', 'in', 'inch', 'inches'),
  ...unit('feet', 'ft', 'ft', 'feet'),
  ...unit('degrees', 'celsius', '°c', 'degc', 'celsius', 'c'),
  ...unit('degrees', 'fahrenheit', '°f', 'degf', 'fahrenheit', 'f'),
  ...unit('percent', 'percent', '%', 'percent', 'pct'),
  ...unit('percent', 'mac', '%mac', 'mac'),
  ...unit('gallons', 'usgal', 'gal', 'gals', 'gallon', 'gallons', 'usg'),
  ...unit('liters', 'l', 'l', 'ltr', 'ltrs', 'litre', 'litres', 'liter', 'liters'),
  ...unit('megahertz', 'frequency', 'mhz'),
  ...unit('mach', 'mach', 'mach'),
  ...unit('degrees', 'degrees', '°', 'deg', 'degs', 'degree', 'degrees'),
  ...unit('zulu', 'time', 'utc', 'z', 'zulu'),
  ...unit('foot pounds', 'torque', 'ftlb'),
  ...unit('newton meters', 'newtonMetres', 'newtonm'),
  ...unit('pounds per hour', 'poundsAnHour', 'pph'),
  ...unit('kilograms per hour', 'kilogramsAnHour', 'kgph'),
  ...unit('liters per hour', 'litresAnHour', 'lph'),
  ...unit('gallons per hour', 'gallonsAnHour', 'gph'),
  ...unit('feet per minute', 'count', 'fpm'),
  ...unit('psi', 'psi', 'psi'),
  ...unit('bar', 'bar', 'bar', 'bars'),
  ...unit('volts', 'volts', 'v', 'volt', 'volts', 'vdc', 'vac'),
  ...unit('amps', 'amps', 'a', 'amp', 'amps', 'ampere', 'amperes'),
  ...unit('rpm', 'rpm', 'rpm'),
  ...unit('minutes', 'minutes', 'mins', 'minutes', 'minute'),
  ...unit('seconds', 'seconds', 'sec', 'secs', 'second', 'seconds'),
  ...unit('persons', 'count', 'pob', 'pax', 'persons', 'souls'),
])
