package org.splicebook.cli;

import java.util.concurrent.Callable;
import org.splicebook.render.drawing.DrawingKind;
import org.splicebook.render.drawing.Drawings;
import org.splicebook.wiring.Derivation;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

@Command(
        name = "draw",
        description = {
            "Draws a part of a house's wiring as SVG:",
            "circuit BREAKER, box by box from its breaker; box BOX, opened up; way LOADPOINT, its feed and its return apart;"
                    + " panel PANEL, as it hangs; house [THING], by room, with what losing one thing takes down;"
                    + " reach DEVICE, where it protects."
        })
final class DrawCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(
            index = "0",
            paramLabel = "FILE|HOUSE",
            description = "A house file, a folder of them, or a stored house's id.")
    private String house = "";

    @Parameters(index = "1", paramLabel = "KIND", description = "${COMPLETION-CANDIDATES}")
    private DrawingKind kind = DrawingKind.HOUSE;

    @Parameters(index = "2", arity = "0..1", paramLabel = "OF", description = "Of what: its name in the record.")
    private String subject = "";

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private DraftOption draft = new DraftOption();

    @Mixin
    private OutputFile target = new OutputFile();

    DrawCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        target.write(
                terminal,
                Drawings.of(kind, Derivation.derive(draft.over(Houses.record(house, program, store))), subject)
                        .svg());
        return ExitCodes.OK;
    }
}
