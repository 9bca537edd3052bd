// Limits of the API, with the values it runs with when nothing is configured.

export interface ApiSettings {
  readonly bodyLimitBytes: number
  /** Per client address; health checks are exempt. */
  readonly requestsPerMinute: number
  /** A sweep of more raw combinations is refused before it is accepted. */
  readonly combinationsMax: number
  /** A sweep estimated to take longer on one thread is refused before it is accepted. */
  readonly sweepSecondsMax: number
  /** Progress streams open at once. */
  readonly eventStreamsMax: number
  /** How often a progress stream looks, and how long it stays open at most. */
  readonly eventPollMs: number
  readonly eventStreamMaxMs: number
  /** How long one look at the store or the queue may take before it counts as down. */
  readonly probeTimeoutMs: number
  /** Believe X-Forwarded-For; only behind a proxy of one's own. */
  readonly trustProxy: boolean
}

export const defaultApiSettings: ApiSettings = {
  bodyLimitBytes: 256 * 1024,
  requestsPerMinute: 600,
  combinationsMax: 1e11,
  sweepSecondsMax: 1800,
  eventStreamsMax: 200,
  eventPollMs: 500,
  eventStreamMaxMs: 15 * 60_000,
  probeTimeoutMs: 2000,
  trustProxy: false,
}
