const months = [
  ...["January", "February", "March", "April", "May", "June", "July"],
  ...["August", "September", "October", "November", "December"],
];

/** "14 May 2026" where the session gives 2026-05-14; other ways to write a date stay as they are. */
export function dateWords(date: string): string {
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(date) ?? [];
  const name = months[Number(month) - 1];
  return year === undefined || name === undefined ? date : `${Number(day)} ${name} ${year}`;
}
