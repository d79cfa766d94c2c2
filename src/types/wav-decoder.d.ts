declare module "wav-decoder" {
  export interface AudioData {
    sampleRate: number;
    channelData: Float32Array[];
  }
  const decoder: {
    decode: { sync(buffer: ArrayBuffer, options?: { symmetric?: boolean }): AudioData };
  };
  export default decoder;
}
