// Command routwright turns one design file into templates, tables and checks for
// a solid-body electric guitar.
package main

func main() {}
