/** The sounds of the recogniser's language, as one word: the path for speech that fits nothing. */

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

/**
 * One word that each sound is a pronunciation of. As forty words they would share out the path's weight
 * among them, and a speaker's every sound would cost what a number word costs.
 */
export const SOUND = 'anysound'

export const isPhoneWord = (word: string): boolean => word.replace(/\(\d+\)$/, '') === SOUND
