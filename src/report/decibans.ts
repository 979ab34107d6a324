/** Weights of evidence as a mechanic says them. */

/** 4.9 → `3.1 times as likely`, −6 → `4 times less likely`, 0.1 → `hardly anything`; against all else together. */
export function decibanWords(decibans: number): string {
  const times = 10 ** (Math.abs(decibans) / 10);
  if (times < 1.05) return 'hardly matters';
  const shown = times >= 9.95 ? timesRounded(times) : String(Math.round(times * 10) / 10);
  return `${shown} times ${decibans > 0 ? 'as' : 'less'} likely`;
}

/** `+4.9 dB`, `−6.0 dB`, with a minus that is as wide as the plus. */
export function decibanNumber(decibans: number): string {
  const rounded = Math.round(decibans * 10) / 10;
  return `${rounded < 0 ? '−' : '+'}${Math.abs(rounded).toFixed(1)} dB`;
}

/** Two digits are more than any rider's answer is worth. */
function timesRounded(times: number): string {
  const scale = 10 ** Math.max(0, Math.floor(Math.log10(times)) - 1);
  return String(Math.round(times / scale) * scale);
}
