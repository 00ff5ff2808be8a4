declare module 'jstat' {
  const jstat: {
    readonly normal: {
      inv(p: number, mean: number, deviation: number): number
      cdf(x: number, mean: number, deviation: number): number
    }
    readonly binomial: { cdf(successes: number, trials: number, chance: number): number }
    mean(values: readonly number[]): number
    variance(values: readonly number[]): number
    median(values: readonly number[]): number
    quantiles(values: readonly number[], shares: readonly number[]): number[]
  }
  export default jstat
}
