#pragma once

#include "exchange/workbook/packed.hpp"
#include "exchange/workbook/workbook.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn::test {

constexpr const char* main_namespace = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";

/// The parts of an .xlsx that has these sheets, `xml` being what is in their sheetData.
struct XlsxSheet {
    std::string name;
    std::string xml;
    std::string state{};
};

inline std::vector<PackedPart> xlsx_parts(const std::vector<XlsxSheet>& sheets,
                                          const std::string& styles = "", const std::string& shared = "",
                                          const std::string& properties = "") {
    const std::string relationships = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    const std::string open_list =
        "<Relationships xmlns='http://schemas.openxmlformats.org/package/2006/relationships'>";
    const auto relationship = [&](const std::string& id, const std::string& kind, const std::string& target) {
        return "<Relationship Id='" + id + "' Type='" + relationships + '/' + kind + "' Target='" + target +
               "'/>";
    };
    std::string list;
    std::string beside = open_list + relationship("st", "styles", "styles.xml") +
                         relationship("sh", "sharedStrings", "/xl/shared.xml");
    std::vector<PackedPart> parts;
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        const std::string number = std::to_string(i + 1);
        list += "<sheet name='" + sheets[i].name + "' sheetId='" + number + "' r:id='s" + number + "'" +
                (sheets[i].state.empty() ? "" : " state='" + sheets[i].state + "'") + "/>";
        beside += relationship("s" + number, "worksheet", "worksheets/sheet" + number + ".xml");
        parts.push_back({"xl/worksheets/sheet" + number + ".xml",
                         std::string("<worksheet xmlns='") + main_namespace + "'><sheetData>" +
                             sheets[i].xml + "</sheetData></worksheet>"});
    }
    const std::string in_main = std::string(" xmlns='") + main_namespace + "'";
    parts.push_back({"[Content_Types].xml", "<Types/>"});
    parts.push_back({"_rels/.rels", open_list + relationship("w", "officeDocument", "xl/workbook.xml") +
                                        "</Relationships>"});
    parts.push_back({"xl/_rels/workbook.xml.rels", beside + "</Relationships>"});
    parts.push_back({"xl/workbook.xml", "<workbook" + in_main + " xmlns:r='" + relationships + "'>" +
                                            properties + "<sheets>" + list + "</sheets></workbook>"});
    parts.push_back({"xl/styles.xml", "<styleSheet" + in_main + ">" + styles + "</styleSheet>"});
    parts.push_back({"xl/shared.xml", "<sst" + in_main + ">" + shared + "</sst>"});
    return parts;
}

/// The parts of an .ods with this in its office:spreadsheet.
inline std::vector<PackedPart> ods_parts(const std::string& xml, const std::string& styles = "") {
    const std::string oasis = "urn:oasis:names:tc:opendocument:xmlns:";
    return {{"mimetype", "application/vnd.oasis.opendocument.spreadsheet"},
            {"content.xml",
             "<office:document-content xmlns:office='" + oasis + "office:1.0' xmlns:table='" + oasis +
                 "table:1.0' xmlns:text='" + oasis + "text:1.0' xmlns:style='" + oasis +
                 "style:1.0' xmlns:draw='" + oasis +
                 "drawing:1.0' xmlns:calcext='urn:org:documentfoundation:names:experimental:calc:xmlns:"
                 "calcext:1.0'><office:automatic-styles>" +
                 styles + "</office:automatic-styles><office:body><office:spreadsheet>" + xml +
                 "</office:spreadsheet></office:body></office:document-content>"}};
}

/// One table of such a spreadsheet.
inline std::string ods_table(const std::string& rows, const std::string& name = "Marks") {
    return "<table:table table:name='" + name + "'>" + rows + "</table:table>";
}

/// The cells of a workbook's sheet as `B7=text`, with `!` for one that is no value.
inline std::vector<std::string> cells_of(const std::vector<PackedPart>& parts,
                                         const std::optional<std::string>& name = std::nullopt,
                                         const WorkbookLimits& limits = {}) {
    std::vector<std::string> cells;
    const std::string bytes = packed(parts);
    const WorkbookSheet sheet = read_workbook(bytes, name, limits);
    for (const SheetCell& cell : sheet.cells())
        cells.push_back(cell_name(cell.row, cell.column) + (cell.kind == SheetCellKind::value ? "=" : "!") +
                        std::string(cell.text));
    return cells;
}

inline std::vector<std::string> cells_of_xlsx(const std::string& rows, const std::string& styles = "",
                                              const std::string& shared = "",
                                              const std::string& properties = "") {
    return cells_of(xlsx_parts({{"Marks", rows}}, styles, shared, properties));
}

inline std::vector<std::string> cells_of_ods(const std::string& rows) {
    return cells_of(ods_parts(ods_table(rows)));
}

} // namespace inkturn::test
