#include "pdf/archive.h"

#include "base/text.h"

namespace dogear::pdf {
namespace {

std::string element(std::string_view name, std::string_view content) {
  const std::string tag(name);
  return "<" + tag + ">" + std::string(content) + "</" + tag + ">\n";
}

std::string in_every_language(const std::string& name, const std::string& text) {
  return element(
      name, "<rdf:Alt><rdf:li xml:lang=\"x-default\">" + escaped(text) + "</rdf:li></rdf:Alt>");
}

// A group of facts of one schema.
std::string facts(const std::string& names, const std::string& content) {
  return "<rdf:Description rdf:about=\"\" " + names + ">\n" + content + "</rdf:Description>\n";
}

// PDF/A asks for a description of every schema that it does not know; it is older than PDF/UA.
std::string pdfua_schema() {
  const std::string property =
      element("pdfaProperty:category", "internal") +
      element("pdfaProperty:description", "Part of ISO 14289 that the file keeps") +
      element("pdfaProperty:name", "part") + element("pdfaProperty:valueType", "Integer");
  const auto list = [](const std::string& kind, const std::string& entry) {
    return "<rdf:" + kind + "><rdf:li rdf:parseType=\"Resource\">\n" + entry +
           "</rdf:li></rdf:" + kind + ">";
  };
  const std::string schema =
      element("pdfaSchema:namespaceURI", "http://www.aiim.org/pdfua/ns/id/") +
      element("pdfaSchema:prefix", "pdfuaid") +
      element("pdfaSchema:schema", "PDF/UA identification") +
      element("pdfaSchema:property", list("Seq", property));
  return facts(
      "xmlns:pdfaExtension=\"http://www.aiim.org/pdfa/ns/extension/\"\n"
      "  xmlns:pdfaSchema=\"http://www.aiim.org/pdfa/ns/schema#\"\n"
      "  xmlns:pdfaProperty=\"http://www.aiim.org/pdfa/ns/property#\"",
      element("pdfaExtension:schemas", list("Bag", schema)));
}

}  // namespace

std::string metadata(const About& about) {
  std::string core;
  if (!about.title.empty()) core += in_every_language("dc:title", about.title);
  if (!about.author.empty())
    core +=
        element("dc:creator", "<rdf:Seq><rdf:li>" + escaped(about.author) + "</rdf:li></rdf:Seq>");
  if (!about.subject.empty()) core += in_every_language("dc:description", about.subject);
  if (!about.language.empty())
    core += element("dc:language",
                    "<rdf:Bag><rdf:li>" + escaped(about.language) + "</rdf:li></rdf:Bag>");
  std::string tool = element("xmp:CreatorTool", creator);
  if (about.date)
    tool += element("xmp:CreateDate", *about.date) + element("xmp:ModifyDate", *about.date);

  std::string out =
      "<?xpacket begin=\"\uFEFF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
      "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
      "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n";
  out += facts("xmlns:dc=\"http://purl.org/dc/elements/1.1/\"", core);
  out += facts("xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\"", tool);
  if (!about.producer.empty())
    out += facts("xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\"",
                 element("pdf:Producer", escaped(about.producer)));
  out += facts("xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\"",
               element("pdfaid:part", "1") + element("pdfaid:conformance", "B"));
  if (about.for_all) {
    out += pdfua_schema();
    out +=
        facts("xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\"", element("pdfuaid:part", "1"));
  }
  return out + "</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>\n";
}

void write_metadata(Objects& o, const About& about) {
  const HPDF_Dict stream =
      o.plain_stream(metadata(about));  // archives look for it without unpacking
  o.set_name(stream, "Type", "Metadata");
  o.set_name(stream, "Subtype", "XML");
  o.set(o.catalog(), "Metadata", stream);
}

void write_colour_profile(Objects& o) {
  const HPDF_Dict profile = o.stream(srgb_profile());
  o.set_number(profile, "N", 3);
  const HPDF_Dict intent = o.dict();
  o.set_name(intent, "Type", "OutputIntent");
  o.set_name(intent, "S", "GTS_PDFA1");
  o.set_ascii(intent, "OutputConditionIdentifier", "sRGB");
  o.set_ascii(intent, "Info", "sRGB IEC61966-2.1");
  o.set(intent, "DestOutputProfile", profile);
  const HPDF_Array intents = o.array();
  o.push(intents, intent);
  o.set(o.catalog(), "OutputIntents", intents);
}

}  // namespace dogear::pdf
