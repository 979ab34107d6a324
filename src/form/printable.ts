/** Somebody else's text in a message: one short line without control characters, whatever it was. */
export function printable(text: string, most = 40): string {
  const clean = text.replaceAll(/\p{Cc}/gu, '�');
  return clean.length > most ? `${clean.slice(0, most - 3)}...` : clean;
}
