const secondsAnHour = 3_600;

/** How does a duration [s] read in a column? Minutes and seconds `12:05`, from an hour on `1:02:05`. */
export function clockText(seconds: number): string {
  const whole = Math.round(seconds);
  const hours = Math.floor(whole / secondsAnHour);
  const minutes = Math.floor((whole % secondsAnHour) / 60);
  const rest = String(whole % 60).padStart(2, '0');
  return hours > 0 ? `${hours}:${String(minutes).padStart(2, '0')}:${rest}` : `${minutes}:${rest}`;
}

/** How does a duration [s] read in a sentence? `45 s`, `12 min 5 s`, `1 h 2 min`. */
export function durationText(seconds: number): string {
  const whole = Math.round(seconds);
  if (whole < 60) return `${whole} s`;
  const hours = Math.floor(whole / secondsAnHour);
  const minutes = Math.floor((whole % secondsAnHour) / 60);
  if (hours > 0) return minutes === 0 ? `${hours} h` : `${hours} h ${minutes} min`;
  return whole % 60 === 0 ? `${minutes} min` : `${minutes} min ${whole % 60} s`;
}

/** How does a probability read? In per cent with one decimal; what is neither none nor certain never reads as such. */
export function chanceText(probability: number): string {
  if (probability === 0) return 'none';
  if (probability === 1) return 'certain';
  const percent = probability * 100;
  if (percent < 0.1) return 'under 0.1 %';
  if (percent > 99.9) return 'over 99.9 %';
  return `${percent.toFixed(1)} %`;
}

/** How does a moment in RFC 3339 read? Date, time to the minute and the offset, as they were written down. */
export function momentText(moment: string): string {
  const match = /^(\d{4}-\d{2}-\d{2})T(\d{2}:\d{2})(?::\d{2}(?:\.\d+)?)?(Z|[+-]\d{2}:\d{2})$/.exec(moment);
  if (match === null) return moment;
  const [, date, time, offset] = match;
  return `${date} ${time} ${offset === 'Z' ? 'UTC' : offset}`;
}
