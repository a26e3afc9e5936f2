package org.splicebook.cli;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.loadflow.FlowReport;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.loadflow.Report;
import org.splicebook.loadflow.ReportReader;
import picocli.CommandLine.Option;

/** Which report on that state is wanted, instead of all its volts and amperes. */
final class ReportOptions {
    @Option(
            names = "--report",
            paramLabel = "REPORT",
            description =
                    "A report on that state: open-neutral, device-holds, breaker-holds, run-length, fault-current, panel-fault, loose-neutral.")
    private @Nullable String report;

    @Option(
            names = "--about",
            paramLabel = "NAME",
            description =
                    "What the report is about: the breaker, the ground-fault unit, the load point that a run goes on from.")
    private String about = "";

    @Option(
            names = "--with",
            paramLabel = "NAME=VALUE",
            description =
                    "For run-length: volts=120, amperes=15, share=0.03 (of the volts that may be lost), power-factor=1. For loose-neutral: meter=1 (its error in volts).")
    private Map<String, String> settings = new LinkedHashMap<>();

    @Option(
            names = "--reading",
            paramLabel = "READING",
            description =
                    "For loose-neutral: what a meter showed, \"lamp.hot lamp.neutral 109 V with kettle.top=1500 W\".")
    private List<String> readings = List.of();

    /** {@return which report is wanted; null: none} */
    @Nullable
    FlowReport wanted() {
        return report == null ? null : FlowReport.of(report).orElse(null);
    }

    boolean isAsked() {
        return report != null;
    }

    /**
     * {@return the report}
     *
     * @throws org.splicebook.problem.ProblemException with all that is wrong in what was said
     */
    Report<?> make(LoadFlow flow, LoadCase state) {
        ReportReader reader = new ReportReader(flow);
        reader.report(report == null ? "" : report);
        reader.about(about);
        settings.forEach(reader::setting);
        readings.forEach(reader::reading);
        return reader.read(state).get();
    }
}
