#include "exchange/workbook/xlsx_parts.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/utf8.hpp"

#include <charconv>
#include <map>
#include <utility>

namespace inkturn {
namespace {

std::string folder_of(const std::string& part) {
    return part.substr(0, part.rfind('/') + 1);
}

/// The name of a part that another one names from its own folder, or with a slash from the top.
std::string resolved(const std::string& folder, std::string_view target) {
    std::string part = target.substr(0, 1) == "/" ? std::string() : folder;
    while (!target.empty()) {
        const std::string_view step = target.substr(0, target.find('/'));
        const bool is_last = step.size() == target.size();
        target.remove_prefix(step.size() + (is_last ? 0 : 1));
        if (step == "..")
            part = folder_of(part.substr(0, part.empty() ? 0 : part.size() - 1));
        else if (!step.empty() && step != ".")
            part.append(step).append(is_last ? "" : "/");
    }
    return part;
}

template <typename List>
void check_count(const List& list, std::size_t max, const char* what) {
    if (list.size() >= max)
        throw Error("the workbook has more than " + std::to_string(max) + ' ' + what +
                    ": it was not written by a spreadsheet program");
}

class RelationshipsPart : public XmlHandler {
  public:
    RelationshipsPart(std::string folder, const WorkbookLimits& limits)
        : folder_(std::move(folder)), max_(limits.listed) {}

    void start(std::string_view name, const XmlAttributes& attributes) override {
        if (name != "Relationship" || attributes.text("TargetMode") == "External")
            return;
        check_count(found, max_, "relationships");
        const std::string_view type = attributes.text("Type");
        found.push_back({std::string(attributes.text("Id")), std::string(type.substr(type.rfind('/') + 1)),
                         resolved(folder_, attributes.text("Target"))});
    }
    void end(std::string_view /*name*/) override {}
    void text(std::string_view /*piece*/) override {}

    std::vector<Relationship> found;

  private:
    std::string folder_;
    std::size_t max_;
};

class WorkbookPartReader : public XmlHandler {
  public:
    WorkbookPartReader(const std::vector<Relationship>& relationships, const WorkbookLimits& limits)
        : relationships_(relationships), max_(limits.listed) {}

    void start(std::string_view name, const XmlAttributes& attributes) override {
        if (is_first_)
            read.is_workbook = name == "workbook";
        is_first_ = false;
        if (name == "workbookPr")
            read.from_1904 = attributes.text("date1904") == "1" || attributes.text("date1904") == "true";
        else if (name == "sheet")
            add_sheet(attributes);
    }
    void end(std::string_view /*name*/) override {}
    void text(std::string_view /*piece*/) override {}
    bool done() const override { return !read.is_workbook; }

    WorkbookPart read;

  private:
    /// Sheets of charts and dialogues have no cells.
    void add_sheet(const XmlAttributes& attributes) {
        check_count(read.sheets, max_, "sheets");
        for (const Relationship& one : relationships_)
            if (one.id == attributes.text("r:id") && one.kind == "worksheet") {
                const std::string_view state = attributes.text("state");
                read.sheets.push_back(
                    {std::string(attributes.text("name")), state == "hidden" || state == "veryHidden"});
                read.parts.push_back(one.part);
                return;
            }
    }

    const std::vector<Relationship>& relationships_;
    std::size_t max_;
    bool is_first_ = true;
};

class SharedStringsPart : public XmlHandler {
  public:
    SharedStringsPart(WorkbookSheet& sheet, const WorkbookLimits& limits)
        : sheet_(sheet), max_(limits.cells) {}

    void start(std::string_view name, const XmlAttributes& /*attributes*/) override {
        if (name == "rPh")
            in_phonetic_ = true;
        in_text_ = name == "t" && !in_phonetic_;
    }
    void end(std::string_view name) override {
        in_text_ = false;
        if (name == "rPh")
            in_phonetic_ = false;
        if (name != "si")
            return;
        check_count(texts, max_, "texts");
        texts.push_back(sheet_.keep(unescaped(text_)));
        text_.clear();
    }
    void text(std::string_view piece) override {
        if (!in_text_)
            return;
        text_ += piece;
        sheet_.check_length(text_);
    }

    std::vector<std::string_view> texts;

  private:
    WorkbookSheet& sheet_;
    std::size_t max_;
    std::string text_;
    bool in_text_ = false;
    bool in_phonetic_ = false; ///< how it is read aloud
};

class StylesPart : public XmlHandler {
  public:
    StylesPart(std::vector<NumberFormat>& formats, std::vector<std::size_t>& by_style,
               const WorkbookLimits& limits)
        : formats_(formats), by_style_(by_style), max_(limits.listed) {}

    void start(std::string_view name, const XmlAttributes& attributes) override {
        if (name == "numFmt")
            add_format(attributes);
        else if (name == "cellXfs")
            in_cell_styles_ = true;
        else if (name == "xf" && in_cell_styles_)
            add_style(read_natural(attributes.text("numFmtId")).value_or(0));
    }
    void end(std::string_view name) override { in_cell_styles_ = in_cell_styles_ && name != "cellXfs"; }
    void text(std::string_view /*piece*/) override {}

  private:
    void add_format(const XmlAttributes& attributes) {
        const auto id = read_natural(attributes.text("numFmtId"));
        if (!id)
            return;
        check_count(formats_, max_, "number formats");
        by_id_[*id] = formats_.size();
        formats_.emplace_back(attributes.text("formatCode"));
    }

    void add_style(unsigned id) {
        check_count(by_style_, 10 * max_, "styles of cells");
        auto known = by_id_.find(id);
        if (known == by_id_.end()) {
            check_count(formats_, max_, "number formats");
            known = by_id_.emplace(id, formats_.size()).first;
            formats_.push_back(NumberFormat::built_in(id));
        }
        by_style_.push_back(known->second);
    }

    std::vector<NumberFormat>& formats_;
    std::vector<std::size_t>& by_style_;
    std::size_t max_;
    std::map<unsigned, std::size_t> by_id_;
    bool in_cell_styles_ = false;
};

std::optional<unsigned> escaped_code(std::string_view text) {
    if (text.size() < 7 || text.substr(0, 2) != "_x" || text[6] != '_')
        return std::nullopt;
    unsigned code = 0;
    const auto read = std::from_chars(text.data() + 2, text.data() + 6, code, 16);
    return read.ec == std::errc() && read.ptr == text.data() + 6 ? std::optional(code) : std::nullopt;
}

} // namespace

std::vector<Relationship> relationships_of(WorkbookPackage& package, const std::string& part) {
    const std::string folder = folder_of(part);
    const std::string where = folder + "_rels/" + part.substr(folder.size()) + ".rels";
    if (!package.has(where))
        return {};
    RelationshipsPart reader(folder, package.limits());
    package.read_xml(where, reader);
    return std::move(reader.found);
}

std::optional<std::string> part_of_kind(const std::vector<Relationship>& relationships,
                                        std::string_view kind) {
    for (const Relationship& one : relationships)
        if (one.kind == kind)
            return one.part;
    return std::nullopt;
}

WorkbookPart read_workbook_part(WorkbookPackage& package, const std::string& part) {
    const std::vector<Relationship> relationships = relationships_of(package, part);
    WorkbookPartReader reader(relationships, package.limits());
    package.read_xml(part, reader);
    return std::move(reader.read);
}

std::vector<std::string_view> read_shared_strings(WorkbookPackage& package, const std::string& part,
                                                  WorkbookSheet& sheet) {
    SharedStringsPart reader(sheet, package.limits());
    package.read_xml(part, reader);
    return std::move(reader.texts);
}

NumberFormats::NumberFormats(WorkbookPackage& package, const std::string& part) {
    StylesPart reader(formats_, by_style_, package.limits());
    package.read_xml(part, reader);
}

const NumberFormat& NumberFormats::of_style(std::size_t style) const {
    return formats_[style < by_style_.size() ? by_style_[style] : 0];
}

std::optional<std::uint32_t> read_natural(std::string_view text) {
    std::uint32_t number = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
    if (text.empty() || read.ec != std::errc() || read.ptr != text.data() + text.size())
        return std::nullopt;
    return number;
}

std::string unescaped(std::string_view text) {
    constexpr std::size_t escape_length = 7;
    std::string plain;
    for (std::size_t i = 0; i < text.size();) {
        const auto code = text[i] == '_' ? escaped_code(text.substr(i)) : std::nullopt;
        if (code)
            append_utf8(plain, *code);
        else
            plain += text[i];
        i += code ? escape_length : 1;
    }
    return plain;
}

} // namespace inkturn
