package org.splicebook.store;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.splicebook.answer.Reply;
import org.splicebook.problem.Result;
import org.splicebook.record.House;

/** Keeps drafts beside houses. None of them is part of a house, its graph, its history or any question, unless that is asked of the draft. */
public interface DraftStore {
    /** {@return the drafts of a house, by name; none where the house is not there} */
    List<KeptDraft> drafts(String house);

    /** {@return a draft of a house that is there, if it is kept} */
    Optional<KeptDraft> findDraft(String house, String name);

    /**
     * Keeps a draft as its next version.
     *
     * @param state the draft, of the house that it names
     * @param expected the version that it was made from: 0 for one that must not be kept yet
     * @param who who writes it
     * @return the new version, or a {@code STALE} problem that names the newest one
     */
    Result<KeptDraft> putDraft(DraftState state, long expected, String who);

    /**
     * Stores what was done of a draft: the house as its next revision and the draft as its next version, both or neither.
     *
     * @param house the record after the work
     * @param state the draft after it; its revision is the one that the house becomes
     * @param expected the version of the draft that it was made from
     * @param who who did it
     * @param why what was done, in a few words
     * @return the new revision of the house, or a {@code STALE} problem
     */
    Result<Revision> enterDraft(House house, DraftState state, long expected, String who, String why);

    /**
     * Asks about a house as it would be after a draft. Nothing of it is stored, and nobody else sees it.
     *
     * @param question its id; one across houses cannot be asked of a draft
     * @param drafted the draft and what it makes of its house
     * @param parameters by name
     */
    Result<Reply> askDraft(String question, DraftedHouse drafted, Map<String, String> parameters);
}
