/** Words at the beginning of a sentence: "flap five" is "Flap five". */
export const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`
