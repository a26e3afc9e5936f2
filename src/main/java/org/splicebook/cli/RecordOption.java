package org.splicebook.cli;

import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

/** The house that a command is about: a file or folder of them, or a stored one, its newest revision or the one behind an @. */
final class RecordOption {
    @Parameters(
            index = "0",
            paramLabel = "FILE|HOUSE",
            description = "A house file, a folder of them, or a stored house's id, or its revision: house@3.")
    private String house = "";

    @Mixin
    private StoreOptions store = new StoreOptions();

    /** {@return the house that was named} */
    Houses.Named read(Program program) {
        return Houses.named(house, program, store);
    }
}
