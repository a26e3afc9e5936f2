package org.splicebook.web.view;

/**
 * Words, most often with somewhere to go.
 *
 * @param to the address; empty for words alone
 * @param words what it says
 * @param note what is told beside it; may be empty
 */
public record Link(String to, String words, String note) {
    /** {@return words alone} */
    public static Link words(String words) {
        return new Link("", words, "");
    }

    /** {@return whether it leads anywhere} */
    public boolean leads() {
        return !to.isEmpty();
    }
}
