package org.splicebook.web;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.util.List;
import java.util.Map;
import org.splicebook.problem.Problem;

/** The compiled templates of {@code src/main/jte}. They escape whatever they are given. */
final class Templates {
    private static final TemplateEngine ENGINE = TemplateEngine.createPrecompiled(
            null, ContentType.Html, Templates.class.getClassLoader(), "org.splicebook.web.pages");

    private Templates() {}

    /** {@return a page, its parameters filled in} */
    static String page(String template, Map<String, Object> parameters) {
        StringOutput out = new StringOutput();
        ENGINE.render(template + ".jte", parameters, out);
        return out.toString();
    }

    /** {@return a page that says what went wrong} */
    static String failed(List<Problem> problems) {
        return page("failed", Map.of("why", problems.stream().map(Problem::said).toList()));
    }
}
