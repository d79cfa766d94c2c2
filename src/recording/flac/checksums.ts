/** The two checksums of a FLAC frame. Source: RFC 9639 (2024), sections 9.1.8 and 9.3. */

const CRC8 = Uint8Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit++) crc = (crc << 1) ^ (crc & 0x80 ? 0x07 : 0);
  return crc;
});

const CRC16 = Uint16Array.from({ length: 256 }, (_, byte) => {
  let crc = byte << 8;
  for (let bit = 0; bit < 8; bit++) crc = (crc << 1) ^ (crc & 0x8000 ? 0x8005 : 0);
  return crc;
});

/** Checksum of a frame's header: 0 over a header with its checksum. */
export function crc8(bytes: Uint8Array, from: number, to: number): number {
  let crc = 0;
  for (let n = from; n < to; n++) crc = CRC8[crc ^ bytes[n]!]!;
  return crc;
}

/** Checksum of a whole frame, one byte further: 0 after a frame with its checksum. */
export function crc16Step(crc: number, byte: number): number {
  return CRC16[(crc >> 8) ^ byte]! ^ ((crc << 8) & 0xffff);
}
