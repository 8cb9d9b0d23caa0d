module routwright/testdata/peers

go 1.26.0

replace routwright => ../..

require (
	github.com/peterstace/simplefeatures v0.50.0
	routwright v0.0.0-00010101000000-000000000000
)

require (
	golang.org/x/image v0.47.0 // indirect
	golang.org/x/text v0.43.0 // indirect
)
