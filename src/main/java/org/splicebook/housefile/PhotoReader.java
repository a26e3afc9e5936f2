package org.splicebook.housefile;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Photo;

/** Reads and writes what a record says of photographs and documents. */
final class PhotoReader {
    /** The key under which they stand. */
    static final String KEY = "photos";

    /** The key under which documents stand. */
    static final String DOCUMENTS = "documents";

    private static final Pattern FILE = Pattern.compile("[0-9a-f]{64}");

    private PhotoReader() {}

    static List<Photo> read(Fields of, String key, Problems problems) {
        List<Photo> all = new ArrayList<>();
        for (Node n : Values.notTooMany(of.list(key), of.at(key), problems)) {
            Fields f = Fields.of(n, Shapes.keys("photo"), problems);
            f.need("file", "Say under which name the file is kept: 64 digits of 0-9 and a-f.");
            Node.Scalar file = f.scalar("file");
            String date = Values.day(f.scalar("date"), problems);
            String note = f.note();
            if (file != null && FILE.matcher(file.text()).matches()) {
                all.add(new Photo(file.text(), date, note));
            } else if (file != null) {
                problems.error(
                        ProblemKind.BAD_VALUE,
                        file.at(),
                        file.said() + " is no name of a kept file.",
                        "Such a name has 64 digits of 0-9 and a-f; pages give it when a file is brought in.");
            }
        }
        return all;
    }

    static Node photo(Photo p) {
        return new Tree()
                .put("file", p.file())
                .put("date", p.date())
                .put("note", p.note())
                .node();
    }
}
