/** Days are counted from 1 January 2000, a Saturday; whole numbers, earlier ones below 0. Gregorian calendar throughout. */
export type Day = number;

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;
const WEEK = ['Sat', 'Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri'] as const;
const WRITTEN = /^(\d{4})-(\d{2})-(\d{2})$/;

/** Days in the 400 years after which the calendar repeats. */
const CYCLE = 146_097;

/** The day of a written date, `2027-05-14` (ISO 8601); null when there is no such day. */
export function dayOf(written: string): Day | null {
  const match = WRITTEN.exec(written);
  if (!match) return null;
  const [year, month, date] = match.slice(1).map(Number);
  const day = fromCivil(year, month, date);
  return month >= 1 && month <= 12 && isoText(day) === written ? day : null;
}

/** A day as ISO 8601 writes it. */
export function isoText(day: Day): string {
  const { year, month, date } = toCivil(day);
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(date)}`;
}

/** A day for people: `Fri 14 May 2027`. */
export function dayText(day: Day): string {
  const { year, month, date } = toCivil(day);
  return `${WEEK[weekday(day)]} ${date} ${MONTHS[month - 1]} ${year}`;
}

/** Whether people work on a day: all seven, or without Sunday, or without Saturday and Sunday, and so on back from Sunday. */
export function isWorkday(day: Day, daysAWeek: number): boolean {
  const fromMonday = (weekday(day) + 5) % 7;
  return fromMonday < daysAWeek;
}

/** 0 is Saturday. */
const weekday = (day: Day): number => ((day % 7) + 7) % 7;
const two = (value: number): string => String(value).padStart(2, '0');

/** Counting years from March puts the leap day last (Richards, Mapping Time, 1998, chapter 25; from memory). */
function fromCivil(year: number, month: number, date: number): Day {
  const y = month <= 2 ? year - 1 : year;
  const sinceMarch = (month + 9) % 12;
  const leaps = Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400);
  return 365 * y + leaps + Math.floor((153 * sinceMarch + 2) / 5) + date - 1 - TO_2000;
}

function toCivil(day: Day) {
  const since = day + TO_2000;
  const cycle = Math.floor(since / CYCLE);
  const inCycle = since - cycle * CYCLE;
  const yearOfCycle = Math.floor(
    (inCycle - Math.floor(inCycle / 1460) + Math.floor(inCycle / 36_524) - Math.floor(inCycle / 146_096)) / 365,
  );
  const inYear = inCycle - (365 * yearOfCycle + Math.floor(yearOfCycle / 4) - Math.floor(yearOfCycle / 100));
  const sinceMarch = Math.floor((5 * inYear + 2) / 153);
  const month = sinceMarch < 10 ? sinceMarch + 3 : sinceMarch - 9;
  const year = yearOfCycle + 400 * cycle + (month <= 2 ? 1 : 0);
  return { year, month, date: inYear - Math.floor((153 * sinceMarch + 2) / 5) + 1 };
}

/** From 1 March of the year 0 to 1 January 2000. */
const TO_2000 = 730_425;
