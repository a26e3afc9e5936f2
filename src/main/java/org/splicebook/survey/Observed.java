package org.splicebook.survey;

/**
 * A symptom and what was otherwise than usual meanwhile.
 *
 * @param when what was otherwise
 * @param symptom what was seen
 */
public record Observed(Condition when, Symptom symptom) {
    /** {@return something seen with everything as usual} */
    public static Observed usually(Symptom symptom) {
        return new Observed(Condition.USUAL, symptom);
    }
}
