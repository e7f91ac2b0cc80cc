module plinth

go 1.24
