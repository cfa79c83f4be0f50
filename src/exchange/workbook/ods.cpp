#include "exchange/workbook/ods.hpp"

#include "exchange/workbook/ods_cell.hpp"
#include "inkturn/base/error.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace inkturn {
namespace {

constexpr const char* content_part = "content.xml";
constexpr const char* manifest_part = "META-INF/manifest.xml";

/// What lies in a sheet or a cell and is no text of it: remarks, drawings, notes, how text is read aloud.
constexpr std::array<std::string_view, 6> elements_passed_over{
    "office:annotation", "office:forms", "table:covered-table-cell",
    "table:shapes",      "text:note",    "text:ruby-text"};

bool is_passed_over(std::string_view name) {
    return name.substr(0, 5) == "draw:" || std::find(elements_passed_over.begin(), elements_passed_over.end(),
                                                     name) != elements_passed_over.end();
}

/// How often an element stands for itself. A number too large to read is as good as any large one.
std::uint64_t repeats(const XmlAttributes& attributes, std::string_view name) {
    const auto stated = attributes.find(name);
    if (!stated)
        return 1;
    constexpr std::uint64_t more_than_any = std::uint64_t{1} << 32;
    std::uint64_t number = 0;
    const auto read = std::from_chars(stated->data(), stated->data() + stated->size(), number);
    return read.ec == std::errc() ? std::clamp<std::uint64_t>(number, 1, more_than_any) : more_than_any;
}

/// Reads the rows of one sheet.
class OdsRows {
  public:
    explicit OdsRows(WorkbookSheet& sheet) : sheet_(sheet), cell_(sheet) {}

    void start(std::string_view name, const XmlAttributes& attributes) {
        if (name == "table:table-row")
            start_row(attributes);
        else if (name == "table:covered-table-cell")
            column_ += repeats(attributes, "table:number-columns-repeated");
        else if (name == "table:table-cell")
            start_cell(attributes);
        else if (in_cell_)
            start_text(name, attributes);
    }

    void end(std::string_view name) {
        if (name == "text:p" || name == "text:h")
            in_paragraph_ = false;
        else if (name == "table:table-cell")
            end_cell();
        else if (name == "table:table-row")
            end_row();
    }

    void text(std::string_view piece) {
        if (in_paragraph_)
            cell_.add_text(piece);
    }

  private:
    struct RowCell {
        std::uint64_t column;
        std::uint64_t repeated;
        OdsCell::Content content;
    };

    void start_row(const XmlAttributes& attributes) {
        row_repeated_ = repeats(attributes, "table:number-rows-repeated");
        column_ = 0;
        cells_.clear();
    }

    void start_cell(const XmlAttributes& attributes) {
        cell_repeated_ = repeats(attributes, "table:number-columns-repeated");
        in_cell_ = true;
        cell_.start(attributes);
    }

    void start_text(std::string_view name, const XmlAttributes& attributes) {
        if (name == "text:p" || name == "text:h") {
            cell_.start_paragraph();
            in_paragraph_ = true;
        } else if (in_paragraph_ && name == "text:s") {
            cell_.add_blanks(repeats(attributes, "text:c"));
        } else if (in_paragraph_ && name == "text:tab") {
            cell_.add_character('\t');
        } else if (in_paragraph_ && name == "text:line-break") {
            cell_.add_character('\n');
        }
    }

    void end_cell() {
        in_cell_ = false;
        try {
            OdsCell::Content content = cell_.content();
            if (content.kind != SheetCellKind::value || !is_blank(content.text))
                cells_.push_back({column_ + 1, cell_repeated_, std::move(content)});
        } catch (const Error& error) {
            throw Error("the workbook is damaged (its cell " + cell_name(row_ + 1, column_ + 1) + ' ' +
                        error.what() + "): use a fresh copy");
        }
        column_ += cell_repeated_;
    }

    void end_row() {
        for (std::uint64_t i = 0; i < row_repeated_ && !cells_.empty(); ++i)
            for (const RowCell& cell : cells_)
                for (std::uint64_t k = 0; k < cell.repeated; ++k)
                    sheet_.add(row_ + i + 1, cell.column + k, cell.content.kind, cell.content.text);
        row_ += row_repeated_;
    }

    WorkbookSheet& sheet_;
    OdsCell cell_;
    std::vector<RowCell> cells_; ///< of the row, those with content
    std::uint64_t row_ = 0;      ///< those before this one
    std::uint64_t column_ = 0;   ///< the same
    std::uint64_t row_repeated_ = 1;
    std::uint64_t cell_repeated_ = 1;
    bool in_cell_ = false;
    bool in_paragraph_ = false;
};

/// Reads a spreadsheet's content: which tables it has, or one of them. Tables that lie deeper are none of its
/// sheets: those in drawings, and in the record of changes.
class OdsContent : public XmlHandler {
  public:
    /// `wanted`: the position of the table that is read into the sheet; nothing: they are listed.
    OdsContent(std::optional<std::size_t> wanted, WorkbookSheet& sheet) : wanted_(wanted), sheet_(sheet) {}

    void start(std::string_view name, const XmlAttributes& attributes) override {
        ++depth_;
        if (passed_over_ > 0)
            return;
        if (name == "office:spreadsheet")
            spreadsheet_ = depth_;
        else if (spreadsheet_ == 0)
            start_style(name, attributes);
        else if (depth_ == spreadsheet_ + 1)
            start_child(name, attributes);
        else
            start_in_table(name, attributes);
    }

    void end(std::string_view name) override {
        if (passed_over_ == depth_)
            passed_over_ = 0;
        else if (passed_over_ == 0 && is_in_table())
            rows_->end(name);
        if (spreadsheet_ > 0 && depth_ == spreadsheet_ + 1)
            note_content();
        --depth_;
    }

    void text(std::string_view piece) override {
        if (passed_over_ == 0 && is_in_table())
            rows_->text(piece);
    }

    bool done() const override { return wanted_ && has_content.size() > *wanted_; }

    std::vector<ListedSheet> sheets;
    std::vector<bool> has_content; ///< of those that ended
    bool has_spreadsheet() const { return spreadsheet_ > 0; }

  private:
    bool is_in_table() const { return spreadsheet_ > 0 && depth_ > spreadsheet_ + 1; }

    void start_style(std::string_view name, const XmlAttributes& attributes) {
        if (name == "style:style")
            style_ = attributes.text("style:name");
        else if (name == "style:table-properties" && attributes.text("table:display") == "false")
            hidden_styles_.insert(style_);
    }

    void start_child(std::string_view name, const XmlAttributes& attributes) {
        if (name != "table:table") {
            passed_over_ = depth_;
            return;
        }
        if (wanted_ && *wanted_ != sheets.size())
            passed_over_ = depth_;
        const bool is_hidden = hidden_styles_.count(std::string(attributes.text("table:style-name"))) > 0;
        if (sheets.size() == sheet_.limits().listed)
            throw Error("the workbook has more than " + std::to_string(sheets.size()) + " sheets");
        sheets.push_back({std::string(attributes.text("table:name")), is_hidden});
        rows_.emplace(sheet_);
    }

    void start_in_table(std::string_view name, const XmlAttributes& attributes) {
        const bool is_known_enough = !wanted_ && !sheet_.cells().empty();
        if (!is_known_enough)
            rows_->start(name, attributes);
        if (is_known_enough || is_passed_over(name) || name == "table:table")
            passed_over_ = depth_;
    }

    /// At the end of a table, or of another element beside the tables.
    void note_content() {
        if (has_content.size() == sheets.size())
            return;
        has_content.push_back(!sheet_.cells().empty());
        if (!wanted_)
            sheet_ = WorkbookSheet(sheet_.limits());
    }

    std::optional<std::size_t> wanted_;
    WorkbookSheet& sheet_;
    std::optional<OdsRows> rows_;         ///< of the table
    std::set<std::string> hidden_styles_; ///< of tables
    std::string style_;
    std::size_t depth_ = 0;
    std::size_t spreadsheet_ = 0; ///< its depth; 0: not met
    std::size_t passed_over_ = 0; ///< the depth of the element whose inside is; 0: none
};

/// Finds whether a package's parts are encrypted.
class OdsManifest : public XmlHandler {
  public:
    void start(std::string_view name, const XmlAttributes& /*attributes*/) override {
        is_encrypted = is_encrypted || name == "manifest:encryption-data";
    }
    void end(std::string_view /*name*/) override {}
    void text(std::string_view /*piece*/) override {}
    bool done() const override { return is_encrypted; }

    bool is_encrypted = false;
};

void check_not_encrypted(WorkbookPackage& package) {
    if (!package.has(manifest_part))
        return;
    OdsManifest manifest;
    package.read_xml(manifest_part, manifest);
    if (manifest.is_encrypted)
        throw Error("the workbook was saved with a password: save it without one");
}

} // namespace

WorkbookSheet read_ods(WorkbookPackage& package, const SheetChoice& choice) {
    check_not_encrypted(package);
    WorkbookSheet sheet(package.limits());
    OdsContent list(std::nullopt, sheet);
    package.read_xml(content_part, list);
    if (!list.has_spreadsheet())
        throw Error("the file holds a document and no workbook: use .xlsx, .ods or CSV");
    const std::size_t chosen = choice.among(list.sheets, [&](std::size_t i) { return list.has_content[i]; });
    sheet = WorkbookSheet(package.limits());
    OdsContent reader(chosen, sheet);
    package.read_xml(content_part, reader);
    sheet.finish();
    return sheet;
}

} // namespace inkturn
