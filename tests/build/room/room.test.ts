/** A room of one process alone. */

import { testRoom } from './room.ts'
import { testsOfARoom } from './roomTests.ts'

testsOfARoom(() => testRoom())
