package org.splicebook.ask;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** The questions that are computed. A new one is added here. */
final class ComputedQuestions {
    private static final List<ComputedQuestion> ALL = List.of(
            AlwaysHot.QUESTION,
            BeforeClosing.QUESTION,
            Contradictions.QUESTION,
            Dark.QUESTION,
            Diagnose.QUESTION,
            DueQuestion.QUESTION,
            ShutOffQuestion.QUESTION,
            Differences.QUESTION,
            Fill.QUESTION,
            HalfFinished.QUESTION,
            MissingProtection.QUESTION,
            SagOrder.QUESTION,
            StillLive.QUESTION,
            SurveyPass.QUESTION,
            SurveyStatus.QUESTION,
            SwitchTable.QUESTION,
            WhatFeeds.QUESTION,
            WrongLabels.QUESTION);

    /** By id. */
    static final Map<String, ComputedQuestion> BY_ID = byId();

    private ComputedQuestions() {}

    private static Map<String, ComputedQuestion> byId() {
        Map<String, ComputedQuestion> all = new TreeMap<>();
        ALL.forEach(q -> all.put(q.question().id(), q));
        return all;
    }
}
