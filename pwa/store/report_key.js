/** Where the customer's PDF of a job lies among the bytes; what lets go of a job's data lets go of it too. */
export function reportKey(job) {
  return `report:${job}`;
}
