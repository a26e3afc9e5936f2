package org.splicebook.app;

import org.splicebook.housefile.DraftFiles;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.HouseWriter;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Property;
import org.splicebook.store.RecordText;

/** What is kept is a house file, and a file of moves for a draft: both can be read without this program. */
final class HouseRecordText implements RecordText {
    @Override
    public String write(House house) {
        return HouseWriter.write(house);
    }

    @Override
    public String writeProperty(Property property) {
        return PropertyFiles.write(property);
    }

    @Override
    public Property readProperty(String text) {
        return PropertyFiles.parse("record", text).get().property();
    }

    @Override
    public House read(String text) {
        return HouseFiles.parse("record", text).get();
    }

    @Override
    public String write(Draft draft) {
        return DraftFiles.write(draft);
    }

    @Override
    public Draft readDraft(String text) {
        return DraftFiles.parseKept(text).get();
    }
}
