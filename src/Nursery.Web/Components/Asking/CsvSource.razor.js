// The bytes of a text area, streamed; a message of the circuit is limited to 32 KB.
export function bytesOf(area) {
  return new TextEncoder().encode(area.value);
}
