declare module 'jstat' {
  const jstat: {
    readonly normal: {
      inv(p: number, mean: number, deviation: number): number
      cdf(x: number, mean: number, deviation: number): number
    }
    readonly beta: { inv(p: number, a: number, b: number): number }
  }
  export default jstat
}
