declare module 'number-to-words' {
  export function toWords(number: number): string
}
