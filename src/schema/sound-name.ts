/** Whether a file is named as sound is; what it holds decides how it is read. */
export function isSoundName(file: string): boolean {
  return /\.(wave?|bwf|rf64|flac|aiff?|aifc|caf)$/i.test(file);
}
