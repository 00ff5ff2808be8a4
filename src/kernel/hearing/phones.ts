/** The sounds of the recogniser's language, each as a word of its own: the path for speech that fits nothing. */

/** ARPAbet without stress, as in the CMU pronouncing dictionary. */
export const PHONES: readonly string[] = [
  ...[
    'AA',
    'AE',
    'AH',
    'AO',
    'AW',
    'AY',
    'B',
    'CH',
    'D',
    'DH',
    'EH',
    'ER',
    'EY',
    'F',
    'G',
    'HH',
    'IH',
    'IY',
    'JH',
    'K',
  ],
  ...['L', 'M', 'N', 'NG', 'OW', 'OY', 'P', 'R', 'S', 'SH', 'T', 'TH', 'UH', 'UW', 'V', 'W', 'Y', 'Z', 'ZH'],
]

const PREFIX = 'ph_'

export const phoneWord = (phone: string): string => `${PREFIX}${phone.toLowerCase()}`

export const isPhoneWord = (word: string): boolean => word.startsWith(PREFIX)
