using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Stillhook.Store.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class Hovers : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "FuelFrom",
                table: "hover_point",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "FuelKg",
                table: "hover_point",
                type: "double precision",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "LoadKg",
                table: "hover_point",
                type: "double precision",
                nullable: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "FuelFrom",
                table: "hover_point");

            migrationBuilder.DropColumn(
                name: "FuelKg",
                table: "hover_point");

            migrationBuilder.DropColumn(
                name: "LoadKg",
                table: "hover_point");
        }
    }
}
