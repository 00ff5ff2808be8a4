/** Listeners to one kind of event: what every ear, switch and log here needs, once. */

export interface Emitter<Event> {
  /** Calls each listener in the order in which they came; one that leaves meanwhile is still called for this event. */
  emit(event: Event): void
  /** Returns its undoing. A listener that subscribes twice is called once. */
  subscribe(listener: (event: Event) => void): () => void
}

export function createEmitter<Event>(): Emitter<Event> {
  const listeners = new Set<(event: Event) => void>()
  return {
    emit(event) {
      for (const listener of [...listeners]) listener(event)
    },
    subscribe(listener) {
      listeners.add(listener)
      return () => void listeners.delete(listener)
    },
  }
}
