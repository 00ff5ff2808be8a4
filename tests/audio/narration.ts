/**
 * What is said in a room beside answers: a pilot who thinks aloud, a radio, another person. Words of the trade and
 * numbers are among it, as they are in such talk. The sentences of tuning and check are apart.
 */

export type Speaker = 'pilot' | 'radio' | 'other'

export const SPOKEN_BESIDE: Readonly<Record<'tuning' | 'check', Readonly<Record<Speaker, readonly string[]>>>> = {
  tuning: {
    pilot: [
      'right so we are waiting for the loaders to finish at the back',
      'the weather over the hills should be gone by the time we get there',
      'let me see where did I put that sheet',
      'I always forget which way this thing turns',
      'the beacon can wait until they have all stepped back',
      'we had four of these last week and every one was late',
      'that was a long day and I could do with some sleep',
      'so the wind is more or less down the runway',
      'they changed the stand again and nobody told us',
      'once the doors are shut we ask for the push',
      'I think the fuel truck has gone to the wrong place',
      'there was a light on here yesterday but it went out',
      'we take the second exit and then it is a long way round',
      'remind me to write that up when we are back',
    ],
    radio: [
      'good morning tower lining up behind the landing traffic',
      'continue approach number three you are behind a business jet',
      'vacate to the left and contact ground',
      'nice day sir report passing the lake',
    ],
    other: [
      'excuse me are you still using this chair',
      'dinner is nearly ready so do not be too long',
      'can you turn that down a little please',
      'somebody rang about the car this morning',
    ],
  },
  check: {
    pilot: [
      'okay so that is the paperwork out of the way I hope',
      'now where is the tug he was here a minute ago',
      'the trim wheel on this one is always a bit stiff',
      'I would rather have the other runway but there we are',
      'we were told to expect a delay of about ten minutes',
      'they have put most of the bags in the front today',
      'last time I did this the brakes were hot for half an hour',
      'that cloud does not look very friendly to me',
      'let us not rush this there is plenty of time',
      'somewhere in here there is a page about cold weather',
      'the pumps sound different from yesterday do they not',
      'my old instructor used to say slow is smooth',
      'if we lose one on the way up we turn towards the coast',
      'I still need to look at the chart for the taxi route',
      'both of them came from the same factory I believe',
      'the cabin is warm enough so we leave that as it is',
      'there is a notice about birds to the north of the field',
      'we can take the speed from the card in a moment',
      'hang on that does not look right at all',
      'the flaps come out when we are on our way not before',
      'I had the chicken and it was surprisingly good',
      'five of us went and only two came back before midnight',
      'it says here that the lights are being worked on',
      'well that is one way of doing it I suppose',
      'she set the whole thing up and then it rained',
      'nobody has called us yet so we just sit here',
    ],
    radio: [
      'morning ground we are looking for taxi with the latest information',
      'behind the landing aircraft line up and wait behind',
      'turn right when able and call the tower on the other box',
      'thanks for your help have a good flight bye bye',
      'traffic is a helicopter at your two o clock no factor',
      'roger that we will be off frequency for a few minutes',
      'caution wake turbulence the heavy has just departed',
    ],
    other: [
      'did you remember to bring the milk in this morning',
      'the neighbours are having their roof done next week',
      'I will be in the garden if anybody wants me',
      'put it on the table and shut the door behind you',
      'how much longer are you going to play with that',
      'the train was full so we had to stand all the way',
    ],
  },
}
