#include "exchange/workbook/xlsx.hpp"

#include "exchange/workbook/number_format.hpp"
#include "exchange/workbook/xlsx_parts.hpp"
#include "inkturn/base/error.hpp"

#include <string>
#include <utility>

namespace inkturn {
namespace {

/// What the cells of a sheet refer to.
struct XlsxContext {
    NumberFormats formats;
    std::vector<std::string_view> texts;
    bool from_1904 = false;
};

struct CellPlace {
    std::uint64_t row;
    std::uint64_t column;
};

/// Reads `B7`; nothing for anything else.
std::optional<CellPlace> read_place(std::string_view text) {
    constexpr std::size_t max_letters = 3;
    CellPlace place{0, 0};
    std::size_t i = 0;
    for (; i < text.size() && i < max_letters && text[i] >= 'A' && text[i] <= 'Z'; ++i)
        place.column = place.column * 26 + static_cast<std::uint64_t>(text[i] - 'A') + 1;
    const auto row = read_natural(text.substr(i));
    if (i == 0 || !row || *row == 0)
        return std::nullopt;
    place.row = *row;
    return place;
}

/// Reads the cells of a sheet's part.
class XlsxSheetPart : public XmlHandler {
  public:
    XlsxSheetPart(const XlsxContext& context, WorkbookSheet& sheet, bool only_first)
        : context_(context), sheet_(sheet), only_first_(only_first) {}

    void start(std::string_view name, const XmlAttributes& attributes) override {
        if (name == "row")
            start_row(attributes);
        else if (name == "c")
            start_cell(attributes);
        else if (name == "f")
            is_formula_ = true;
        else if (name == "rPh")
            in_phonetic_ = true;
        in_value_ = name == "v" || (name == "t" && !in_phonetic_);
        has_value_ = has_value_ || name == "v";
    }

    void end(std::string_view name) override {
        in_value_ = false;
        if (name == "rPh")
            in_phonetic_ = false;
        else if (name == "c")
            end_cell();
    }

    void text(std::string_view piece) override {
        if (!in_value_)
            return;
        value_ += piece;
        sheet_.check_length(value_);
    }

    bool done() const override { return only_first_ && !sheet_.cells().empty(); }

  private:
    [[noreturn]] void refuse(const std::string& why) const {
        throw Error("the workbook is damaged (its cell " + cell_name(place_.row, place_.column) + ' ' + why +
                    "): use a fresh copy, or open it in the spreadsheet program and save it again");
    }

    void start_row(const XmlAttributes& attributes) {
        const auto stated = attributes.find("r");
        const auto row = stated ? read_natural(*stated) : std::nullopt;
        place_ = {row ? *row : place_.row + 1, 0};
    }

    void start_cell(const XmlAttributes& attributes) {
        const auto stated = read_place(attributes.text("r"));
        place_ = stated ? *stated : CellPlace{place_.row, place_.column + 1};
        type_ = attributes.text("t");
        style_ = read_natural(attributes.text("s")).value_or(0);
        value_.clear();
        is_formula_ = false;
        has_value_ = false;
    }

    void add(SheetCellKind kind, std::string text) {
        sheet_.add(place_.row, place_.column, kind, std::move(text));
    }

    void end_cell() {
        const bool is_text = type_ == "str" && has_value_;
        if (is_formula_ && value_.empty() && !is_text)
            add(SheetCellKind::uncalculated, "");
        else if (type_ == "inlineStr" || type_ == "str")
            add(SheetCellKind::value, unescaped(value_));
        else if (value_.empty())
            return;
        else if (type_ == "s")
            add_shared();
        else if (type_ == "e")
            add(SheetCellKind::error, value_);
        else if (type_ == "b")
            add(SheetCellKind::value, value_ == "1" || value_ == "true" ? "TRUE" : "FALSE");
        else if (type_ == "d")
            add(SheetCellKind::value, value_.substr(0, value_.find("T00:00:00")));
        else
            add_number();
    }

    void add_shared() {
        const auto index = read_natural(value_);
        if (!index || *index >= context_.texts.size())
            refuse("refers to a text that isn't there");
        sheet_.add_kept(place_.row, place_.column, SheetCellKind::value, context_.texts[*index]);
    }

    void add_number() {
        const auto number = read_xml_number(value_);
        if (!number)
            refuse("should be a number and is not");
        auto shown = context_.formats.of_style(style_).text(*number, context_.from_1904);
        if (shown)
            add(SheetCellKind::value, *std::move(shown));
        else
            add(SheetCellKind::no_day, plain_text(*number));
    }

    const XlsxContext& context_;
    WorkbookSheet& sheet_;
    bool only_first_;
    CellPlace place_{0, 0};
    std::string type_;
    std::size_t style_ = 0;
    std::string value_;
    bool is_formula_ = false;
    bool has_value_ = false;
    bool in_value_ = false;
    bool in_phonetic_ = false;
};

std::string find_workbook_part(WorkbookPackage& package) {
    const auto part = part_of_kind(relationships_of(package, ""), "officeDocument");
    if (!part)
        throw Error("the file is packed like a workbook, but there is none in it: use .xlsx, .ods or CSV");
    constexpr std::string_view binary = ".bin";
    if (part->size() > binary.size() && part->substr(part->size() - binary.size()) == binary)
        throw Error("this is a binary workbook (.xlsb): open it in the spreadsheet program and save it as "
                    ".xlsx");
    return *part;
}

} // namespace

WorkbookSheet read_xlsx(WorkbookPackage& package, const SheetChoice& choice) {
    const std::string part = find_workbook_part(package);
    const WorkbookPart workbook = read_workbook_part(package, part);
    if (!workbook.is_workbook)
        throw Error("the file holds a document and no workbook: use .xlsx, .ods or CSV");
    const auto beside = relationships_of(package, part);
    WorkbookSheet sheet(package.limits());
    XlsxContext context;
    context.from_1904 = workbook.from_1904;
    if (const auto texts = part_of_kind(beside, "sharedStrings"))
        context.texts = read_shared_strings(package, *texts, sheet);
    if (const auto styles = part_of_kind(beside, "styles"))
        context.formats = NumberFormats(package, *styles);

    const std::size_t chosen = choice.among(workbook.sheets, [&](std::size_t i) {
        WorkbookSheet tried(package.limits());
        XlsxSheetPart first(context, tried, true);
        package.read_xml(workbook.parts[i], first);
        return !tried.cells().empty();
    });
    XlsxSheetPart reader(context, sheet, false);
    package.read_xml(workbook.parts[chosen], reader);
    sheet.finish();
    return sheet;
}

} // namespace inkturn
