/** What is read off a gauge in the run is not known to the figures: where it cannot be used. */
export const readOnly = (name: string, consequence: string): string =>
  `${name} is read off a gauge in the run; ${consequence}`
