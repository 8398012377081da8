const daysIn = (year: number, month: number): number => {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
};

/**
 * Which day is so many months or years after another? ISO 8601 days; where the month has no such day, its last one. Days in
 * this form compare as text.
 */
export const laterBy = (
  day: string,
  { months = 0, years = 0 }: { readonly months?: number; readonly years?: number },
): string => {
  const [year = 0, month = 1, date = 1] = day.split('-').map(Number);
  const count = (year + years) * 12 + month - 1 + months;
  const [newYear, newMonth] = [Math.floor(count / 12), (count % 12) + 1];
  const newDate = Math.min(date, daysIn(newYear, newMonth));
  return [String(newYear).padStart(4, '0'), ...[newMonth, newDate].map((part) => String(part).padStart(2, '0'))].join(
    '-',
  );
};
