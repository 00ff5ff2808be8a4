/** The noise suppressor's package brings no types; this is what we use of it. */
declare module '@jitsi/rnnoise-wasm/dist/rnnoise.js' {
  export interface RnnoiseModule {
    readonly ready: Promise<unknown>
    readonly HEAPF32: Float32Array
    _malloc(bytes: number): number
    _free(address: number): void
    _rnnoise_create(): number
    _rnnoise_destroy(state: number): void
    /** 480 samples at 48 kHz, scaled to 16 bits; returns the probability of speech. */
    _rnnoise_process_frame(state: number, output: number, input: number): number
  }
  export default function create(options: { wasmBinary: ArrayBuffer | Uint8Array }): Promise<RnnoiseModule>
}
