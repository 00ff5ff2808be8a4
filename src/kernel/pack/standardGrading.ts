/**
 * The list by which an instructor grades where the pack brings none. Competencies, their short names and their order are the
 * public ones for pilots: ICAO Doc 9868 (PANS-TRG) and EASA, as in its Flight Examiner Manual, module 1, 15.3.2 (looked up).
 * The behaviours are in words of our own, and only those that a run here can show. Knowledge and both of flight path management
 * are left out: nothing is flown or asked for here.
 */

import type { Pack } from './checklist.ts'
import type { GradingList } from './grading.ts'

export const STANDARD_GRADING: GradingList = {
  source:
    'After the pilot competencies of ICAO (Doc 9868) and EASA, in words of our own; what is flown is not among them.',
  // Five steps with 3 as the standard: common practice of airlines in Europe (mcc-aps.com, looked up).
  scale: [
    'not safe: it did harm here, or would on the line',
    'below standard: it held with help or luck',
    'to standard: what the procedures ask for',
    'good: steady, and ahead of what came',
    'outstanding: others could learn from it',
  ],
  competencies: [
    {
      id: 'PRO',
      name: 'Application of procedures',
      behaviours: [
        'Calls lists and flows in their order, when they are due',
        'Gives each answer in full, and in the words of the list',
        'Takes values from the paper in force',
        'Keeps to the limits of an engine start, and stops at the first that is passed',
        'Departs from a procedure for safety alone, and says so',
      ],
    },
    {
      id: 'COM',
      name: 'Communication',
      behaviours: [
        'Speaks when the other is free to listen',
        'Says what is needed, short, in standard words',
        'Reads back all elements of a clearance',
        'Asks again where something is unclear or does not fit',
        'Briefs so that the other could carry it out',
      ],
    },
    {
      id: 'LTW',
      name: 'Leadership and teamwork',
      behaviours: [
        'Tells the other what comes next',
        'Objects at once when the other errs',
        'Owns a mistake, and puts it right',
        'Takes an objection as help',
        'Does what was asked, or says why not',
      ],
    },
    {
      id: 'PSD',
      name: 'Problem solving and decision making',
      behaviours: [
        'Finds out what is wrong before doing anything about it',
        'Names more than one way out where there is time',
        'Decides in time, and stops where stopping is right',
        'Looks back whether it helped',
      ],
    },
    {
      id: 'SAW',
      name: 'Situation awareness',
      behaviours: [
        'Knows where the run is, and what is still open',
        'Notices that a value or a paper has changed',
        'Checks a value for sense, or against a second source',
        'Sees a reading go wrong before its limit',
        'Names beforehand what may go wrong today',
      ],
    },
    {
      id: 'WLM',
      name: 'Workload management',
      behaviours: [
        'Does the most urgent first when things come together',
        'Has others wait, and comes back to them',
        'Finds the place again after a break',
        'Uses quiet time for what is coming',
        'Checks what was done in a hurry',
      ],
    },
  ],
}

/** The pack's own list, or else this one. */
export const gradingOf = ({ grading }: Pick<Pack, 'grading'>): GradingList => grading ?? STANDARD_GRADING
