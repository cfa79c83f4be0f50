#pragma once

#include "exchange/workbook/limits.hpp"

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace inkturn {

/// The attributes of an element. Their names, and those of elements, are `prefix:name` with our own prefix
/// for each namespace that is known (xml.cpp), `?:name` for any other, and `name` alone for none.
class XmlAttributes {
  public:
    explicit XmlAttributes(const char* const* pairs) : pairs_(pairs) {}
    std::optional<std::string_view> find(std::string_view name) const;
    /// The same, empty where it isn't there.
    std::string_view text(std::string_view name) const { return find(name).value_or(std::string_view()); }

  private:
    const char* const* pairs_; ///< name and value in turns, then null
};

/// What is told of a document while it is read; text comes in any number of pieces.
class XmlHandler {
  public:
    virtual ~XmlHandler() = default;
    virtual void start(std::string_view name, const XmlAttributes& attributes) = 0;
    virtual void end(std::string_view name) = 0;
    virtual void text(std::string_view piece) = 0;
    /// Whether nothing further is wanted of the document.
    virtual bool done() const { return false; }

  protected:
    XmlHandler() = default;
    XmlHandler(const XmlHandler&) = default;
    XmlHandler& operator=(const XmlHandler&) = default;
};

/// Reads an XML document that comes in pieces. Throws Error where it is not well-formed, has a document type
/// (and so perhaps entities), or goes beyond the limits; and what the handler throws.
class XmlReader {
  public:
    /// The handler must outlive the reader. `part` names the document in messages.
    XmlReader(XmlHandler& handler, std::string part, const WorkbookLimits& limits);
    ~XmlReader();
    XmlReader(const XmlReader&) = delete;
    XmlReader& operator=(const XmlReader&) = delete;

    /// Takes the next piece; false once the handler wants no more.
    bool take(std::string_view piece);
    void finish();

  private:
    struct State;
    std::unique_ptr<State> state_;
};

} // namespace inkturn
