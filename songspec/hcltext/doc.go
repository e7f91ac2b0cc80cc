// Package hcltext is what song files and groove files share as texts in HCL: it looks
// at a text before HCL's parser does, knows each byte's line and column, puts what the
// parser says into our words, and collects, sorts and writes what is wrong, each with
// the text that mends it where that is certain.
package hcltext
