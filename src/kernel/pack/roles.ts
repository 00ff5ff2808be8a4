/** Voices that can be told apart. */
export const ROLES = ['otherseat', 'controller', 'broadcast', 'groundCrew'] as const

export type Role = (typeof ROLES)[number]
