declare module "@alexanderolsen/libsamplerate-js" {
  export interface SampleRateConverter {
    /** Interleaved samples in, whatever is ready out; it keeps what it needs for the next call. */
    full(samples: Float32Array): Float32Array;
    destroy(): void;
  }
  const library: {
    create(
      channels: number,
      fromRate: number,
      toRate: number,
      options: { converterType: number },
    ): Promise<SampleRateConverter>;
    ConverterType: { SRC_SINC_MEDIUM_QUALITY: number };
  };
  export default library;
}
