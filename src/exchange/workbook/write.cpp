#include "exchange/workbook/write.hpp"

#include "exchange/workbook/zip_write.hpp"
#include "inkturn/base/ascii.hpp"

#include <algorithm>
#include <string_view>

namespace inkturn {
namespace {

constexpr std::string_view xml_head = "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>\n";
constexpr std::string_view main_names = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
constexpr std::string_view document_names =
    "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
constexpr std::string_view package_names = "http://schemas.openxmlformats.org/package/2006/";
constexpr std::size_t usual_width = 12;

std::string xml(std::string_view body) {
    return std::string(xml_head) + std::string(body);
}

/// Without the control characters that XML 1.0 can't hold.
std::string xml_text(std::string_view text) {
    std::string escaped;
    for (const char c : text)
        if (c == '&')
            escaped += "&amp;";
        else if (c == '<')
            escaped += "&lt;";
        else if (c == '>')
            escaped += "&gt;";
        else if (c == '"')
            escaped += "&quot;";
        else if (static_cast<unsigned char>(c) >= 0x20)
            escaped += c;
    return escaped;
}

/// `A`, `B`, up to `Z`.
char letter_of(std::size_t column) {
    return static_cast<char>('A' + column);
}

std::string cell_xml(std::size_t column, std::size_t row, const std::string& text) {
    const std::string place = letter_of(column) + std::to_string(row);
    if (!text.empty() && text.size() < 10 && text.front() != '0' &&
        std::all_of(text.begin(), text.end(), is_digit))
        return "<c r=\"" + place + "\"><v>" + text + "</v></c>";
    return "<c r=\"" + place + "\" t=\"inlineStr\"><is><t xml:space=\"preserve\">" + xml_text(text) +
           "</t></is></c>";
}

std::string rows_xml(const std::vector<std::vector<std::string>>& rows) {
    std::string body = "<sheetData>";
    for (std::size_t row = 0; row < rows.size(); ++row) {
        body += "<row r=\"" + std::to_string(row + 1) + "\">";
        for (std::size_t column = 0; column < rows[row].size(); ++column)
            if (!rows[row][column].empty())
                body += cell_xml(column, row + 1, rows[row][column]);
        body += "</row>";
    }
    return body + "</sheetData>";
}

std::string columns_xml(const std::vector<std::size_t>& widths) {
    std::string columns;
    for (std::size_t i = 0; i < widths.size(); ++i)
        columns += "<col min=\"" + std::to_string(i + 1) + "\" max=\"" + std::to_string(i + 1) +
                   "\" width=\"" + std::to_string(std::max(widths[i], usual_width / 2)) +
                   "\" customWidth=\"1\"/>";
    return columns.empty() ? columns : "<cols>" + columns + "</cols>";
}

std::string sheet_xml(const std::string& inside) {
    return xml("<worksheet xmlns=\"" + std::string(main_names) + "\">" + inside + "</worksheet>");
}

/// The header stays in view; a cell of the column takes one of the texts on the hidden sheet, or any other.
std::string main_sheet_xml(const SheetToWrite& sheet, const ColumnChoice& choice) {
    std::string inside = "<sheetViews><sheetView workbookViewId=\"0\"><pane ySplit=\"1\" topLeftCell=\"A2\" "
                         "activePane=\"bottomLeft\" state=\"frozen\"/></sheetView></sheetViews>" +
                         columns_xml(sheet.widths) + rows_xml(sheet.rows);
    if (!choice.texts.empty() && sheet.rows.size() > 1) {
        const std::string column(1, letter_of(choice.column));
        inside += "<dataValidations count=\"1\"><dataValidation type=\"list\" allowBlank=\"1\" "
                  "showErrorMessage=\"0\" sqref=\"" +
                  column + "2:" + column + std::to_string(sheet.rows.size()) +
                  "\"><formula1>choice!$A$1:$A$" + std::to_string(choice.texts.size()) +
                  "</formula1></dataValidation></dataValidations>";
    }
    return sheet_xml(inside);
}

std::string choice_sheet_xml(const ColumnChoice& choice) {
    std::vector<std::vector<std::string>> rows;
    for (const std::string& text : choice.texts)
        rows.push_back({text});
    return sheet_xml(rows_xml(rows));
}

std::string types_xml(bool has_choice) {
    const std::string part = "<Override PartName=\"/xl/";
    const std::string kind = "\" ContentType=\"application/vnd.openxmlformats-officedocument.spreadsheetml.";
    return xml("<Types xmlns=\"" + std::string(package_names) +
               "content-types\"><Default Extension=\"rels\" "
               "ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>" +
               part + "workbook.xml" + kind + "sheet.main+xml\"/>" + part + "worksheets/sheet1.xml" + kind +
               "worksheet+xml\"/>" +
               (has_choice ? part + "worksheets/sheet2.xml" + kind + "worksheet+xml\"/>" : "") + "</Types>");
}

std::string relation_xml(const std::string& id, const std::string& type, const std::string& target) {
    return "<Relationship Id=\"" + id + "\" Type=\"" + std::string(document_names) + "/" + type +
           "\" Target=\"" + target + "\"/>";
}

std::string relations_xml(const std::string& relations) {
    return xml("<Relationships xmlns=\"" + std::string(package_names) + "relationships\">" + relations +
               "</Relationships>");
}

std::string workbook_xml(const SheetToWrite& sheet, bool has_choice) {
    return xml("<workbook xmlns=\"" + std::string(main_names) + "\" xmlns:r=\"" +
               std::string(document_names) + "\"><sheets><sheet name=\"" + xml_text(sheet.name) +
               "\" sheetId=\"1\" r:id=\"rId1\"/>" +
               (has_choice ? "<sheet name=\"choice\" sheetId=\"2\" state=\"hidden\" r:id=\"rId2\"/>" : "") +
               "</sheets></workbook>");
}

} // namespace

std::string workbook_of(const SheetToWrite& sheet, const ColumnChoice& choice) {
    const bool has_choice = !choice.texts.empty();
    std::vector<ZipMember> members{
        {"[Content_Types].xml", types_xml(has_choice)},
        {"_rels/.rels", relations_xml(relation_xml("rId1", "officeDocument", "xl/workbook.xml"))},
        {"xl/workbook.xml", workbook_xml(sheet, has_choice)},
        {"xl/_rels/workbook.xml.rels",
         relations_xml(relation_xml("rId1", "worksheet", "worksheets/sheet1.xml") +
                       (has_choice ? relation_xml("rId2", "worksheet", "worksheets/sheet2.xml") : ""))},
        {"xl/worksheets/sheet1.xml", main_sheet_xml(sheet, choice)}};
    if (has_choice)
        members.push_back({"xl/worksheets/sheet2.xml", choice_sheet_xml(choice)});
    return zip_of(members);
}

} // namespace inkturn
