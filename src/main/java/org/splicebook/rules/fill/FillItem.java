package org.splicebook.rules.fill;

import java.util.List;

/**
 * What one item counted.
 *
 * @param what the item in words, for example {@code Wires of 14 AWG}
 * @param about what it is of: wires, devices
 * @param count how it was counted, for example {@code 6 x 2.00}
 * @param room the room it takes
 * @param article the article
 * @param mark how sure the article is: V checked, M well established, U unsure
 */
public record FillItem(String what, List<String> about, String count, Room room, String article, String mark) {
    public FillItem {
        about = List.copyOf(about);
    }
}
