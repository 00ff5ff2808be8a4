/* One voice of flite behind two calls: `say` a text, then fetch its samples. VOICE is the voice's name, such as cmu_us_slt. */

#include <stdlib.h>
#include "flite.h"

#define JOINED(a, b) a##b
#define REGISTER(voice) JOINED(register_, voice)

cst_voice *REGISTER(VOICE)(const char *voxdir);

static cst_wave *wave;

/* Number of samples; 0 where it cannot be said. `text` is from malloc, and freed here. */
__attribute__((export_name("say"))) int say(char *text)
{
    static cst_voice *voice;

    if (!voice)
    {
        flite_init();
        voice = REGISTER(VOICE)(NULL);
    }
    if (wave)
        delete_wave(wave);
    wave = flite_text_to_wave(text, voice);
    free(text);
    return wave ? wave->num_samples : 0;
}

/* Of what was said last, until something else is said. */
__attribute__((export_name("samples"))) const short *samples(void) { return wave ? wave->samples : NULL; }

/* Of its samples, Hz. */
__attribute__((export_name("rate"))) int rate(void) { return wave ? wave->sample_rate : 0; }
